/** Grips of the mold: the wall stays under the finger, on walls that are drawn, and never where their line is seen end on. */
import { describe, expect, it } from 'vitest';
import type { Mold } from '../../src/core/scene/scene.ts';
import { lookFrom, positionOf, seenAt, sightThrough, turned, type Eye, type Frame, type Vec3 } from '../../src/view/eye.ts';
import { beginGrip, gripMarks, GRIP_SINE, moldGrips, type MoldGrip } from '../../src/view/mold-grips.ts';
import { innerAt, keptFrom, moldBounds, outlineOf } from '../../src/view/outline.ts';
import type { SeenFrom } from '../../src/view/props.ts';
import { rayOnLine } from '../../src/view/ray.ts';
import { seeded } from './seeded.ts';

const FRAME: Frame = { width: 660, height: 720, margin: { left: 24, right: 46, top: 52, bottom: 28 } };
/** mm: rounding of doubles at some hundred mm, through a division by the squared sine of the angle to the line. */
const EXACT = 1e-7;
/** mm: a round mold's wall is drawn by 120 chords, each within R(1 − cos 1.5°) of its arc. */
const CHORD = 0.06;

const common = { heightMm: 60, draftDeg: 0, material: 'silicone', wallMm: 8, keep: false } as const;
const MOLDS: readonly { readonly name: string; readonly mold: Mold }[] = [
  { name: 'a box', mold: { ...common, shape: 'box', lengthMm: 200, widthMm: 120, cornerRadiusMm: 0 } },
  { name: 'a leaning box', mold: { ...common, shape: 'box', lengthMm: 200, widthMm: 120, cornerRadiusMm: 10, draftDeg: 7 } },
  { name: 'a round mold', mold: { ...common, shape: 'round', diameterMm: 150 } },
  { name: 'a leaning round mold', mold: { ...common, shape: 'round', diameterMm: 150, draftDeg: 7 } },
];
const look = (mold: Mold, from: SeenFrom): Eye => lookFrom(from, moldBounds(outlineOf(mold)), FRAME);
const through = (point: Vec3, eye: Eye) => {
  const { x, y } = seenAt(eye, point, FRAME);
  return sightThrough(eye, [x, y], FRAME);
};
const beside = ({ at, along }: MoldGrip, by: number): Vec3 => [at[0] + by * along[0], at[1] + by * along[1], at[2] + by * along[2]];
const sizesOf = (grips: readonly MoldGrip[]) => grips.map(({ size }) => size);

it('the sight meets a line where the point on it was, seed 31', () => {
  const random = seeded(31);
  const eye = look(MOLDS[0].mold, 'corner');
  for (let i = 0; i < 300; i++) {
    const turn = 2 * Math.PI * random();
    const along: Vec3 = [0.8 * Math.cos(turn), 0.8 * Math.sin(turn), 0.6];
    const from: Vec3 = [200 * random() - 100, 120 * random() - 60, 60 * random()];
    const by = 80 * random() - 40;
    const met = rayOnLine(through([from[0] + by * along[0], from[1] + by * along[1], from[2] + by * along[2]], eye), from, along, 0.2);
    if (met !== null) expect(Math.abs(met - by)).toBeLessThan(EXACT);
  }
});

it('tells nothing of a line that is seen end on', () => {
  expect(rayOnLine({ origin: [0, 0, 100], direction: [0, 0, -1] }, [5, 5, 0], [0, 0, 1], GRIP_SINE)).toBeNull();
});

describe.each(MOLDS)('$name', ({ mold }) => {
  const eye = look(mold, 'corner');
  const inside = mold.shape === 'box' ? ['lengthMm', 'widthMm', 'heightMm'] : ['diameterMm', 'heightMm'];

  it('has a grip for each size from the corner, saying it', () => {
    const grips = moldGrips(mold, eye);
    expect(sizesOf(grips)).toEqual(inside);
    for (const { size, sizeMm } of grips) expect(sizeMm).toBe((mold as unknown as Record<string, number>)[size]);
    const marks = gripMarks(grips, { words: (size, mm) => `${mm} ${size}`, held: null }, eye, FRAME);
    for (const [i, { words, at }] of marks.entries()) {
      expect(words).toBe(`${grips[i].sizeMm} ${grips[i].size}`);
      expect(at[0] > 0 && at[0] < FRAME.width && at[1] > 0 && at[1] < FRAME.height).toBe(true);
    }
  });

  it('says only the size in hand in a small picture', () => {
    const phone: Frame = { ...FRAME, width: 270, height: 240 };
    const grips = moldGrips(mold, eye);
    const said = (held: string | null) => gripMarks(grips, { words: (size) => size, held }, eye, phone).flatMap(({ words }) => words || []);
    expect(said(null)).toEqual([]);
    for (const { size } of grips) expect(said(size)).toEqual([size]);
  });

  it('keeps the wall under the finger: the mold of the new size has it there', () => {
    for (const grip of moldGrips(mold, eye)) {
      const change = beginGrip(grip, through(grip.at, eye));
      expect(Math.abs(change(through(grip.at, eye))! - grip.sizeMm)).toBeLessThan(EXACT);
      for (const by of [-12, 5, 30]) {
        const to = change(through(beside(grip, by), eye))!;
        const grown = moldGrips({ ...mold, [grip.size]: to } as Mold, eye).find(({ size }) => size === grip.size)!;
        const reach = (point: Vec3) => point[0] * grip.along[0] + point[1] * grip.along[1] + point[2] * grip.along[2];
        expect(Math.abs(reach(grown.at) - reach(grip.at) - by)).toBeLessThan(EXACT);
      }
    }
  });

  it('never makes a size under nothing', () => {
    for (const grip of moldGrips(mold, eye)) expect(beginGrip(grip, through(grip.at, eye))(through(beside(grip, -150), eye))).toBe(0);
  });

  it('stands on the inner face of a wall that is drawn, wherever it is seen from, seed 32', () => {
    const random = seeded(32);
    const outline = outlineOf(mold);
    for (let i = 0; i < 200; i++) {
      const from = turned(eye, 2 * Math.PI * random(), 0.9 * random() - 0.4);
      const kept = keptFrom(outline, positionOf(from));
      for (const { at } of moldGrips(mold, from)) {
        const off = outline.stretches.filter((stretch, k) => kept[k] && !stretch.corner).map(({ at: node, normal }) => {
          const [x, y] = innerAt(outline, node, at[2]);
          return Math.abs((at[0] - x) * normal[0] + (at[1] - y) * normal[1]);
        });
        expect(Math.min(...off)).toBeLessThan(mold.shape === 'round' ? CHORD : EXACT);
      }
    }
  });

  it('leaves out lines that are seen end on', () => {
    expect(sizesOf(moldGrips(mold, look(mold, 'above')))).toEqual(inside.filter((size) => size !== 'heightMm'));
    if (mold.shape === 'box') {
      expect(sizesOf(moldGrips(mold, look(mold, 'front')))).toEqual(['lengthMm', 'heightMm']);
      expect(sizesOf(moldGrips(mold, look(mold, 'end')))).toEqual(['widthMm', 'heightMm']);
    }
  });
});
