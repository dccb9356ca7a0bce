/** What the command keeps from run to run changes no digit: it is a shortcut, and none where it can't be used. */
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { keptIn } from '../../../src/cli/kept/kept-files.ts';
import { keptHeat } from '../../../src/cli/kept/kept-heat.ts';
import { main } from '../../../src/cli/plan.ts';
import { simulatedHeat } from '../../../src/core/plan/heat-simulated.ts';
import type { HeatJudge } from '../../../src/core/plan/heat-judge.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import { scene } from '../../plan/planning.ts';
import { listening } from '../said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillpool-kept-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const said = listening(folder);

const snail = (id: string, xMm: number) => ({ id, kind: 'figure', name: id, material: 'soapstone', shape: { type: 'library', name: 'pond-snail' }, xMm, yMm: 60, baseMm: 0, drying: 'sealed' });
/** Two snails in each other, under pours that are judged by their heat. */
const SCENE = { ...scene({ fillMm: 22, placements: [snail('s1', 60), snail('s2', 66)] }), heat: { model: 'simulated' } };

describe('what the plan command keeps', () => {
  it('is the same plan to the last digit; damaged, or where nothing can be written, it is worked out anew', async () => {
    writeFileSync(join(folder, 'a.scene.json'), JSON.stringify(SCENE));
    const plan = async (kept: string | undefined) => {
      vi.stubEnv('STILLPOOL_KEPT', kept);
      said.out = '';
      await main(['a.scene.json', '--json']);
      expect(said.err).toBe('');
      return said.out;
    };
    const alone = await plan(undefined);
    expect(JSON.parse(alone).pours[0].heat.rangeC).toHaveLength(2);
    const kept = join(folder, 'kept');
    expect(await plan(kept)).toBe(alone);
    expect(readdirSync(kept), 'the mesh, each clipped by the floor, what both share, and their heat').toHaveLength(5);
    expect(await plan(kept)).toBe(alone);
    for (const file of readdirSync(kept)) writeFileSync(join(kept, file), 'cut short');
    expect(await plan(kept)).toBe(alone);
    expect(await plan(join(folder, 'a.scene.json', 'kept'))).toBe(alone);
  });

  it('is asked anew for a pour, a label or a cup that is another, and nothing twice', () => {
    const { mold, room, testCups, formulas } = read(SCENE);
    const label = formulas.get('TL')!;
    const thinner = { ...label, maxDepthMm: 12 };
    const told = (judge: HeatJudge) =>
      [label, thinner].map((formula) => {
        const family = judge.familyOf(formula);
        const first = judge.begin(mold, room).pour({ fromMin: 0, depthMm: 20, formula, family });
        const second = first.then.pour({ fromMin: 2880, depthMm: 10, formula, family });
        return { family, first: first.verdict, fixes: first.fixes(), second: second.verdict, cup: judge.cup(formula, { batchG: 500, roomC: 23, usableMin: 30 }) };
      });
    const wanted = told(simulatedHeat(testCups));
    expect(wanted[0].first).not.toEqual(wanted[1].first);
    const kept = new Map<string, unknown>();
    const puts = vi.fn((key: string, value: unknown) => void kept.set(key, structuredClone(value)));
    const run = () => {
      const { judge, keep } = keptHeat({ mold, room, testCups }, { get: (key) => structuredClone(kept.get(key)), put: puts });
      const verdicts = told(judge);
      keep();
      return verdicts;
    };
    expect(run()).toEqual(wanted);
    expect(run()).toEqual(wanted);
    expect(puts, 'the second run found nothing new').toHaveBeenCalledTimes(1);
  });

  it('keeps two hundred files, those asked for last', () => {
    const kept = keptIn(join(folder, 'many'));
    for (let i = 0; i < 210; i++) {
      kept.put(`key ${i}`, i);
      if (i > 0) expect(kept.get('key 0')).toBe(0);
    }
    expect(readdirSync(join(folder, 'many'))).toHaveLength(200);
    expect(kept.get('key 209')).toBe(209);
  });

  it('takes at most 256 MB, and leaves out what is over 16', () => {
    const large = join(folder, 'large');
    mkdirSync(large);
    for (let i = 0; i < 17; i++) {
      writeFileSync(join(large, `${i}`), '');
      truncateSync(join(large, `${i}`), 16e6);
      utimesSync(join(large, `${i}`), i, i);
    }
    const kept = keptIn(large);
    kept.put('newest', 1);
    expect(kept.get('newest')).toBe(1);
    expect(readdirSync(large)).toHaveLength(1 + 15);
    kept.put('larger', new Uint8Array(16.1e6));
    expect(kept.get('larger')).toBeUndefined();
  });

  it('believes no file in which a bit has turned over', () => {
    const kept = keptIn(join(folder, 'damaged'));
    kept.put('heights', [20, 30]);
    const [file] = readdirSync(join(folder, 'damaged')).map((name) => join(folder, 'damaged', name));
    const sound = readFileSync(file);
    for (let bit = 0; bit < 8 * sound.length; bit++) {
      const damaged = Uint8Array.from(sound);
      damaged[bit >> 3] ^= 1 << (bit & 7);
      writeFileSync(file, damaged);
      expect(kept.get('heights'), `bit ${bit}`).toBeUndefined();
    }
    writeFileSync(file, sound);
    expect(kept.get('heights')).toEqual([20, 30]);
  });
});

function read(document: object) {
  const reading = readScene(document);
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.scene;
}
