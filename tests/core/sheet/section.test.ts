import { describe, expect, it } from 'vitest';
import { spread } from '../../../src/core/sheet/labels.ts';
import { inches, fluidOunces } from '../../../src/core/units/imperial.ts';
import { boxOf } from '../../../src/core/sheet/polygon.ts';
import { hatchMarks } from '../../../src/core/sheet/hatch.ts';
import type { HatchName } from '../../../src/core/sheet/document.ts';
import { depthAt } from '../../../src/core/scene/depth.ts';
import { halfWidthAt, sectionOf } from '../../../src/core/sheet/section.ts';
import { viewOf } from '../../../src/core/sheet/section-view.ts';
import { make, sceneDocument } from './made-scenes.ts';

/** Doubles: sums of a few terms of order 100. */
const EXACT = 1e-9;

const sectionFor = (change: Record<string, unknown> = {}) => {
  const { scene, plan, silhouettes } = make(sceneDocument(change));
  return sectionOf({ scene, pours: plan.pours, silhouettes });
};
const ROOM = { x: 0, y: 0, widthMm: 210, heightMm: 80 };

describe('the section', () => {
  it('bands stand on one another from the floor to the fill', () => {
    const { bands, fillMm } = sectionFor();
    expect(bands[0].fromMm).toBe(0);
    expect(bands.at(-1)!.toMm).toBe(fillMm);
    bands.slice(1).forEach((band, i) => expect(band.fromMm).toBe(bands[i].toMm));
  });

  it('height and depth add up to the fill, or are equal face down', () => {
    for (const stop of sectionFor().stops) expect(Math.abs(stop.atMm + stop.depthMm - 55)).toBeLessThan(EXACT);
    for (const stop of sectionFor({ cast: 'face-down' }).stops) expect(stop.depthMm).toBe(stop.atMm);
    expect(depthAt({ cast: 'face-up', fillMm: 55 }, 20)).toBe(35);
  });

  it('stops name what is there', () => {
    const at20 = sectionFor().stops.find(({ atMm }) => atMm === 20)!;
    expect(at20.names).toEqual(['Lily shadows', 'Newt']);
    expect(sectionFor().stops.at(-1)!.names).toEqual(['show face']);
  });

  it('hatches repeat after eight', () => {
    const { bands } = sectionFor({ fillMm: 48, fills: [{ toMm: 48, formula: 'low' }], placements: Array.from({ length: 12 }, (_, i) => ({ id: `p${i}`, kind: 'plane', name: `${i}`, atMm: 4 * (i + 1) })) });
    expect(bands.map(({ hatch }) => hatch)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 1, 2, 3, 4]);
  });

  it('walls lean by the draft: half-size grows by z·tan(draft)', () => {
    const section = sectionFor({ mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, draftDeg: 8 } });
    expect(Math.abs(halfWidthAt(section, 30) - (100 + 30 * Math.tan((8 * Math.PI) / 180)))).toBeLessThan(EXACT);
  });
});

describe('a creature painted on planes', () => {
  const painted = (more: Record<string, unknown> = {}) => sectionFor({
    placements: [20, 26].map((atMm, i) => ({ id: `p${i}`, kind: 'plane', name: `Carp ${i + 1}`, atMm, slices: ['c'] })),
    creatures: [{ id: 'c', name: 'Carp', shape: { type: 'ellipsoid', lengthMm: 40, widthMm: 10, heightMm: 16 }, xMm: 15, baseMm: 16, ...more }],
  });
  const boxAt = (section: ReturnType<typeof painted>) => boxOf(section.shapes[0].outline.map(({ outer }) => outer));

  it('is there by its outline where it would stand, and told to be painted once a plane under the pour is', () => {
    const section = painted();
    expect(section.shapes.map(({ id, kind, baseMm }) => [id, kind, baseMm])).toEqual([['c', 'creature', 16]]);
    const { x0, x1, y0, y1 } = boxAt(section);
    [[x0, -5], [x1, 35], [y0, 16], [y1, 32]].forEach(([found, expected]) => expect(Math.abs(found - expected)).toBeLessThan(0.1));
    const said = (around?: { fromMm: number; toMm: number }) => viewOf(section, ROOM, around).statements.join(' ');
    expect(said()).toContain('Dashed: Carp, painted on planes.');
    expect(said({ fromMm: 20, toMm: 26 })).toContain('Dashed: Carp');
    expect(said({ fromMm: 0, toMm: 16 })).not.toContain('Dashed');
  });

  it('stands as tall as it is built: 16 mm that are to look so deep are 16 n', () => {
    const { y0, y1 } = boxAt(painted({ read: { stretch: true } }));
    // Through the resins above 16 mm in this scene (made-scenes.ts): between 16 · 1.5 and 16 · 1.56.
    expect(y1 - y0).toBeGreaterThan(24);
    expect(y1 - y0).toBeLessThan(25.1);
  });
});

describe('where a section falls on the page', () => {
  it('is 1:1 where it fits', () => {
    const view = viewOf(sectionFor(), ROOM);
    expect(view.scale).toBe(1);
    expect(view.cuts).toEqual([]);
    expect(Math.abs(view.pageX(50) - view.pageX(-50) - 100)).toBeLessThan(EXACT);
    expect(Math.abs(view.pageY(10) - view.pageY(50) - 40)).toBeLessThan(EXACT);
    expect(view.right).toBeLessThanOrEqual(ROOM.widthMm + EXACT);
  });

  it('is cut short where the mold is too long, at 1:1 on both sides, and says how much', () => {
    const newt = { id: 'f1', kind: 'figure', name: 'Newt', shape: { type: 'ellipsoid', lengthMm: 60, widthMm: 16, heightMm: 14 }, xMm: -150, baseMm: 20, massG: 4, hold: 'rests' };
    const view = viewOf(sectionFor({ mold: { shape: 'box', lengthMm: 500, widthMm: 120, heightMm: 60 }, placements: [newt] }), ROOM);
    expect(view.scale).toBe(1);
    const [{ fromMm, toMm }] = view.cuts;
    expect(view.cuts).toHaveLength(1);
    expect(view.right).toBeLessThanOrEqual(ROOM.widthMm + EXACT);
    expect(Math.abs(view.pageX(fromMm) - view.pageX(-250) - (fromMm + 250))).toBeLessThan(EXACT);
    expect(Math.abs(view.pageX(250) - view.pageX(toMm + 1e-9) - (250 - toMm))).toBeLessThan(1e-6);
    expect(view.statements.join(' ')).toContain('Cut short');
    // The newt reaches from −180 to −120 and is not what is left out.
    expect(fromMm).toBeGreaterThan(-120);
  });

  it('is cut at two places where the figure stands in the middle', () => {
    const view = viewOf(sectionFor({ mold: { shape: 'box', lengthMm: 500, widthMm: 120, heightMm: 60 } }), ROOM);
    expect(view.cuts).toHaveLength(2);
    expect(view.cuts[0].toMm).toBeLessThanOrEqual(-30);
    expect(view.cuts[1].fromMm).toBeGreaterThanOrEqual(30);
    expect(Math.abs(view.pageX(30) - view.pageX(-30) - 60)).toBeLessThan(EXACT);
    expect(view.right).toBeLessThanOrEqual(ROOM.widthMm + EXACT);
  });

  it('says which figures a cut hides', () => {
    const figures = [-200, 0, 200].map((xMm, i) => ({ id: `f${i}`, kind: 'figure', name: `Newt ${i}`, shape: { type: 'ellipsoid', lengthMm: 90, widthMm: 16, heightMm: 14 }, xMm, baseMm: 20, massG: 40, hold: 'rests' }));
    const view = viewOf(sectionFor({ mold: { shape: 'box', lengthMm: 500, widthMm: 120, heightMm: 60 }, placements: figures }), ROOM);
    expect(view.statements.join(' ')).toMatch(/with all or part of .*Newt/);
  });

  it('is drawn smaller where the mold is too tall, and says so', () => {
    const view = viewOf(sectionFor({ mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 140 } }), ROOM);
    expect(view.scale).toBe(1 / 2);
    expect(view.bottom).toBeLessThanOrEqual(ROOM.heightMm + EXACT);
    expect(view.statements[0]).toBe('Drawn 1:2.');
  });

  it('shows one pour of a tall mold at 1:1, cut above and below', () => {
    const view = viewOf(sectionFor({ mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 140 } }), ROOM, { fromMm: 20, toMm: 40 });
    expect(view.scale).toBe(1);
    expect(view.fromMm).toBeLessThanOrEqual(20);
    expect(view.toMm).toBeGreaterThanOrEqual(40);
  });
});

describe('hatches', () => {
  it.each<HatchName>([1, 2, 3, 4, 5, 6, 7, 8, 'wall', 'bed'])('%s covers its box and no more than a pitch round it', (name) => {
    const box = { x0: 30, y0: 40, x1: 70, y1: 55 };
    const marks = hatchMarks(name, box);
    const points = boxOf(marks.lines);
    // mm. The widest pitch is 26 px of 0.22 mm.
    const pitch = 6.5;
    expect(points.x0).toBeLessThan(box.x0 + pitch);
    expect(points.x1).toBeGreaterThan(box.x1 - pitch);
    expect(points.y0).toBeLessThan(box.y0 + pitch);
    expect(points.y1).toBeGreaterThan(box.y1 - pitch);
    for (const edge of [box.x0 - points.x0, points.x1 - box.x1, box.y0 - points.y0, points.y1 - box.y1]) expect(edge).toBeLessThan(pitch);
  });
});

describe('spread', () => {
  it('leaves alone what is far enough apart', () => expect(spread([0, 10, 20], 5, -5, 30)).toEqual([0, 10, 20]));

  it('keeps the gap and the order, and moves as little as it can: three at one spot', () => {
    expect(spread([10, 10, 10], 4, 0, 30)).toEqual([6, 10, 14]);
  });

  it('stays between its ends, closer together where it must', () => {
    expect(spread([0, 0, 0], 4, 0, 100)).toEqual([0, 4, 8]);
    expect(spread([5, 5, 5], 10, 0, 10)).toEqual([0, 5, 10]);
  });
});

describe('inches and fluid ounces', () => {
  it('of 25.4 mm and 29.5735295625 mL are one (NIST SP 811 B.8; Handbook 44 app. C)', () => {
    expect(inches(25.4)).toBe('1\u00a0in');
    expect(fluidOunces(29.5735295625)).toBe('1\u00a0fl\u00a0oz');
  });

  it('come in sixteenths, shortened', () => {
    expect(inches(9.525)).toBe('3⁄8\u00a0in');
    expect(inches(34.925)).toBe('1\u00a03⁄8\u00a0in');
    expect(inches(0.2)).toBe('0\u00a0in');
  });
});
