/** How a piece reads, on the command line: beside the plan as text and JSON, and on templates. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/plan.ts';
import { listening } from './said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillpool-reading-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const said = listening(folder);

/** Acceptance case 11: n 1.55, a fish 16 mm under the face, the floor at 40. */
const pond = (more: Record<string, unknown> = {}, plane: Record<string, unknown> = {}) => ({
  format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 120, widthMm: 80, heightMm: 45 }, fillMm: 40, fills: [{ toMm: 40, formula: 'g' }], heat: { model: 'label' }, bench: { start: '2026-05-04T08:00' },
  formulas: [{ id: 'g', ratioByVolume: [2, 1], maxDepthMm: 25, minDepthMm: 3, refractiveIndex: 1.55 }],
  placements: [{ id: 'floor', kind: 'plane', name: 'Sand', atMm: 0 }, { id: 'fish', kind: 'plane', name: 'Fish', atMm: 24, slices: ['c'], ...plane }],
  creatures: [{ id: 'c', name: 'Carp', shape: { type: 'cylinder', radiusMm: 10, heightMm: 20 }, baseMm: 14, ...(more.creature as object) }],
  ...Object.fromEntries(Object.entries(more).filter(([key]) => key !== 'creature')),
});
const run = async (document: unknown, ...options: string[]) => {
  writeFileSync(join(folder, 'a.scene.json'), JSON.stringify(document));
  [said.out, said.err] = ['', ''];
  const code = await main(['a.scene.json', ...options]);
  return { code, out: said.out, err: said.err };
};
const reading = async (document: unknown) => JSON.parse((await run(document, '--json')).out).reading;

describe('how a piece reads', () => {
  it('says how deep planes look: 16 and 40 mm as 10.3 and 25.8, n 1.55 (acceptance case 11)', async () => {
    const { planes, lamp, back, lines } = await reading(pond());
    expect(planes.map(({ seenDepthMm }: { seenDepthMm: number }) => seenDepthMm.toFixed(1))).toEqual(['25.8', '10.3']);
    expect(lamp).toBeNull();
    expect(back).toBeNull();
    expect(lines[0]).toMatchObject({ on: 'plane', name: 'Fish', seenMm: expect.arrayContaining([{ viewDeg: 0, mm: 0 }]) });
  });

  it('under a lamp at 45° the fish’s shadow lies 12.3 mm aside on the floor (acceptance case 11)', async () => {
    const { planes } = await reading(pond({ lamp: { fromDeg: 180, aboveDeg: 45 } }));
    expect(planes[1].backShiftMm).toBeCloseTo(12.3, 1);
    expect(planes[0].shadows).toMatchObject([{ of: 'c', name: 'Carp', towardDeg: 0 }]);
    expect(planes[0].shadows[0].shiftMm).toBeCloseTo(12.3, 1);
    expect(planes[0].shadows[0].areaCm2).toBeCloseTo(Math.PI, 1);
    expect((planes[0].shadows[0].bounds.minX + planes[0].shadows[0].bounds.maxX) / 2).toBeCloseTo(12.3, 1);
    const { out } = await run(pond({ lamp: {} }));
    expect(out).toContain('How it reads\n  Sand: 40 deep, looks 25.8 mm.\n     The shadow of Carp falls here, 12.3 mm to the right.\n  Fish: 16 deep, looks 10.3 mm.\n  A lamp 45° over the face, from the left, casts shadows by itself: paint one only if the piece will stand without that lamp, or two will show.\n');
  });

  it('stretches a creature of 24 mm to 37.2 that it looks 24 (acceptance case 11), and says where it leaves the resin', async () => {
    const { creatures } = await reading(pond({ creature: { shape: { type: 'cylinder', radiusMm: 10, heightMm: 24 }, baseMm: 1, read: { stretch: true } } }));
    expect(creatures[0]).toMatchObject({ tallMm: 24, overMm: 0, read: { eyeMm: 500, eyeXMm: 0, eyeYMm: 0, stretch: true } });
    expect(creatures[0].builtMm).toBeCloseTo(37.2, 6);
    const { out } = await run(pond({ creature: { baseMm: 20, read: { stretch: true, eyeMm: 300, eyeYMm: -150 } } }));
    expect(out).toContain('Carp is drawn to line up for an eye 300 mm from the show face, 150 mm to the front of its middle, and built deeper so that it looks as deep as it is.');
    // 20 mm of resin over its base look 12.9; the other 7.1 stick out, where nothing is drawn together: by hand.
    expect(out).toContain('It is 20 mm tall and built 27.1 mm. 7.1 mm of that is over the resin: lower it, or fill higher.');
  });

  it('scales outlines for an eye: (300 + 16/1.55)/(300 + 16), by hand', async () => {
    const { creatures } = await reading(pond({ creature: { read: { eyeMm: 300 } } }));
    expect(creatures[0].scales).toEqual([{ planeId: 'fish', scale: expect.closeTo(310.3226 / 316, 5) }]);
  });

  it('says what to paint for each color, of a plane and of a creature on it; clear water changes none', async () => {
    const colors = { creature: { colors: ['#c87137'] } };
    const [, fish] = (await reading(pond(colors, { colors: ['#102030'] }))).planes;
    expect(fish.paints).toMatchObject([{ of: 'Fish', wanted: '#102030', paint: '#102030', possible: true }, { of: 'Carp', wanted: '#c87137', paint: '#c87137', possible: true }]);
    const fills = [{ toMm: 40, formula: 'g', tint: { color: '#2f6f73', percent: 0.1 } }];
    const { guessedFillsToMm, planes } = await reading(pond({ ...colors, fills }));
    expect(guessedFillsToMm).toEqual([40]);
    expect(planes[1].paints[0].paint).not.toBe('#c87137');
    const { out } = await run(pond({ ...colors, fills }));
    expect(out).toMatch(/Carp, to look #c87137: Paint it (a little )?[a-z ]+: [a-z -]+, #[0-9a-f]{6}\./);
    expect(out).toContain('No swatch is known of the dye up to 40 mm: taken as 0.1 % letting 90 % through 10 mm.');
  });

  it('says nothing where nobody asked, and nothing at all without planes', async () => {
    expect((await run(pond())).out).not.toContain('How it reads');
    expect(await reading(pond({ placements: [], creatures: [] }))).toBeUndefined();
  });

  it('templates show a shadow dotted with its name, and say for whom they are drawn', async () => {
    await run(pond({ lamp: {}, creature: { read: {}, colors: ['#c87137'] } }), '--templates', 't');
    const svg = (name: string): string => readFileSync(join(folder, 't', name), 'utf8');
    expect(svg('01-sand.svg')).toContain('shadow of Carp');
    expect(svg('01-sand.svg')).toMatch(/stroke-dasharray/);
    expect(svg('02-fish.svg')).not.toContain('shadow of');
    expect(svg('02-fish.svg').replace(/<[^>]+>/g, ' ')).toContain('line up for');
    expect(existsSync(join(folder, 't', '02-fish.pdf'))).toBe(true);
  });
});

describe('what a scene may say', () => {
  it.each([
    [{ lamp: { aboveDeg: 0 } }, 'lamp.aboveDeg: found 0; expected a number from 5 to 90 °'],
    [{ lamp: 'desk' }, 'lamp'],
    [{ creature: { read: { eyeMm: 0 } } }, 'creatures[0].read.eyeMm: found 0'],
    [{ creature: { read: { stretch: 'yes' } } }, 'creatures[0].read.stretch: found "yes"; expected true or false'],
    [{ creature: { colors: ['teal'] } }, 'creatures[0].colors[0]: found "teal"; expected a color like "#2f6f73"'],
  ])('%o is refused by its field', async (more, words) => {
    const { code, err, out } = await run(pond(more as Record<string, unknown>));
    expect(code).toBe(2);
    expect(err).toContain(words);
    expect(out).toBe('');
  });
});
