/** `--what-if`: a sentence for each change, beside the plan as it is; what can't be read is refused before anything is said. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/plan.ts';
import { scene } from '../plan/planning.ts';
import { listening } from './said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillpool-what-if-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const SCENE = JSON.stringify(scene({ fillMm: 6 }));

const said = listening(folder);
beforeEach(() => writeFileSync(join(folder, 'a.scene.json'), SCENE));

describe('what if, on the command line', () => {
  it('prints each change’s sentence under the plan, and leaves the scene alone', async () => {
    expect(await main(['a.scene.json', '--what-if', 'room=13 C', '--what-if', 'watch=0 h'])).toBe(0);
    // 48 h to the demold, twice that 10 °C colder (rate doubling: common practice, no source).
    expect(said.out.split('\n').slice(-4)).toEqual(['What if', '  At 13 °C: 2 d later.', '  With no watching after a pour: the plan stays as it is.', '']);
    expect(readFileSync(join(folder, 'a.scene.json'), 'utf8')).toBe(SCENE);
  });

  it('gives them in JSON beside the plan, with --start for both', async () => {
    expect(await main(['a.scene.json', '--json', '--start', '2026-06-01T08:00', '--what-if', 'room=13 C'])).toBe(0);
    const { whatIf, finish } = JSON.parse(said.out);
    expect(finish).toBe('2026-06-03T08:30');
    expect(whatIf).toEqual([{ change: 'room=13 C', sentence: 'At 13\u00a0°C: 2\u00a0d later.', finish: '2026-06-05T08:30', laterMin: 2880, pours: 1, costTotal: null, newHalts: [] }]);
    said.out = '';
    await main(['a.scene.json', '--json']);
    expect(JSON.parse(said.out)).not.toHaveProperty('whatIf');
  });

  it.each([
    ['mood=1', '--what-if: found “mood=1”; expected room=20 C'],
    ['fill:1=zz', '--what-if "fill:1=zz": Formula: found "zz"; expected one of'],
  ])('refuses %s in one line, with nothing on stdout', async (change, line) => {
    expect(await main(['a.scene.json', '--what-if', change])).toBe(2);
    expect(said.out).toBe('');
    expect(said.err.startsWith(line), said.err).toBe(true);
    expect(said.err.trimEnd().split('\n')).toHaveLength(1);
  });
});
