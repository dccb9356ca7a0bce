/** Painted creatures on the command line: beside the plan as text and JSON, and the table of counts where it is asked for. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/plan.ts';
import { listening } from './said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillpool-creatures-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const plane = (n: number, atMm: number) => ({ id: `p${n}`, kind: 'plane', name: `Ball ${n}`, atMm, slices: ['c1'] });
const scene = (more = {}) => ({
  format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 80, widthMm: 80, heightMm: 45 }, fillMm: 40, fills: [{ toMm: 40, formula: 'general' }], heat: { model: 'label' }, bench: { start: '2026-05-04T08:00' },
  placements: [plane(1, 20), plane(2, 26)], creatures: [{ id: 'c1', name: 'Ball', shape: { type: 'sphere', radiusMm: 10 }, baseMm: 10 }], ...more,
});

const said = listening(folder);
const write = (document: unknown) => writeFileSync(join(folder, 'a.scene.json'), JSON.stringify(document));
beforeEach(() => write(scene()));

describe('painted creatures', () => {
  it('are told plane by plane in the order of painting, with the step between them', async () => {
    expect(await main(['a.scene.json'])).toBe(0);
    // Sections of the ball: π · 100 and π · 64 mm²; what is new below, π · 36.
    expect(said.out).toContain('Painted: Ball, on 2 planes\n  1. Ball 1, 20 up, 20 deep: 3.1 cm², 1.1 of it new.');
    expect(said.out).toContain('  2. Ball 2, 26 up, 14 deep: 2 cm², 2 of it new.');
    expect(said.out).toMatch(/\n     5\u00a0mm to the front of the mold’s middle: Seen at 45° from the front, 0\.\d+\u00a0cm² of it here show bare behind Ball 2\. Paint on for 3\.1\u00a0mm under what covers it\./);
    expect(said.out).toContain('Planes 6\u00a0mm apart slide 3.1\u00a0mm over each other');
    expect(said.out).toMatch(/A plane takes \d.* at the least: to harden, scuff, paint, dry and pour over\./);
    expect(said.out).not.toContain('How many planes?');
  });

  it('stand in JSON beside the plan, in cm² and mm', async () => {
    await main(['a.scene.json', '--json']);
    const { creatures, planeCounts } = JSON.parse(said.out);
    expect(planeCounts).toBeUndefined();
    expect(creatures).toMatchObject([{ id: 'c1', why: null, planes: [{ planeId: 'p1', order: 1, loops: 1 }, { planeId: 'p2', order: 2 }], steps: [{ nearId: 'p2', farId: 'p1', gapMm: 6 }] }]);
    expect(creatures[0].planes[0].outlineCm2).toBeCloseTo(Math.PI, 3);
    expect(creatures[0].planes[0].freshCm2).toBeCloseTo(0.36 * Math.PI, 3);
    // Planes 6 mm apart slide 6 tan θ′ over each other, n 1.545 by its class: by hand 3.09, for a brush 3.1.
    expect(creatures[0].planes.map(({ bare }: { bare: unknown }) => bare)).toEqual([{ viewDeg: 45, towardDeg: 270, nearId: 'p2', areaCm2: expect.any(Number), rimMm: expect.closeTo(3.1, 9) }, null]);
  });

  it('--planes adds how many there might be', async () => {
    await main(['a.scene.json', '--json', '--planes']);
    const [{ id, rows }] = JSON.parse(said.out).planeCounts;
    expect(id).toBe('c1');
    expect(rows[0]).toMatchObject({ planes: 1, gapMm: null, paintH: 3 });
    expect(rows[3]).toMatchObject({ planes: 4, gapMm: 5, paintH: 12, halts: [] });
    expect(rows[3].daysAdded).toBeGreaterThan(rows[0].daysAdded);
  });

  it('a scene without them says nothing of them', async () => {
    write(scene({ placements: [], creatures: [] }));
    await main(['a.scene.json', '--json', '--planes']);
    expect(JSON.parse(said.out)).not.toHaveProperty('creatures');
  });

  it('whose file is not there is refused by its path, in one line', async () => {
    write(scene({ creatures: [{ id: 'c1', shape: { type: 'mesh', file: 'koi.stl' } }] }));
    expect(await main(['a.scene.json', '--json'])).toBe(2);
    expect([said.out, said.err]).toEqual(['', expect.stringMatching(/creatures\[0\]\.shape: names "koi\.stl", and there is no such file beside the scene\./)]);
  });

  it('are no output’s to write over', async () => {
    const corners = [[0, 0, 0], [9, 0, 0], [0, 9, 0], [0, 0, 9]];
    const facets = [[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]].map((facet) => `facet normal 0 0 0\nouter loop\n${facet.map((v) => `vertex ${corners[v].join(' ')}`).join('\n')}\nendloop\nendfacet`);
    writeFileSync(join(folder, 'box.stl'), `solid b\n${facets.join('\n')}\nendsolid b\n`);
    write(scene({ creatures: [{ id: 'c1', baseMm: 15, shape: { type: 'mesh', file: 'box.stl' } }] }));
    expect(await main(['a.scene.json', '--csv', 'box.stl'])).toBe(2);
    expect(said.err).toMatch(/box\.stl" is the scene or a file it uses, and would be lost/);
  });
});
