/** The cure command: JSON or a table on stdout; what it can't read in one line on stderr, exit 2, nothing on stdout. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/cure.ts';
import stacks from '../reference/heat-stacks.json' with { type: 'json' };
import { listening } from './said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillpool-cure-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const file = (name: string, content: string): string => {
  writeFileSync(join(folder, name), content);
  return name;
};
const SOUND = file('sound.json', JSON.stringify(stacks.cases[2]));
file('bare.json', `\uFEFF${JSON.stringify(stacks.cases[2].case)}`);

const said = listening(folder);

describe('the cure command', () => {
  it('prints pours and balance as JSON, near what the independent solver gives', async () => {
    expect(await main([SOUND, '--json'])).toBe(0);
    const answer = JSON.parse(said.out);
    expect(Object.keys(answer)).toEqual(['pours', 'energyBalance']);
    expect(Object.keys(answer.pours[0])).toEqual(['midPeakC', 'midPeakAtS', 'midGelS', 'peakC']);
    stacks.cases[2].expect.pours.forEach(({ midPeakC, midGelS }, k) => {
      expect(Math.abs(answer.pours[k].midPeakC - midPeakC)).toBeLessThan(0.2);
      expect(Math.abs(answer.pours[k].midGelS / midGelS - 1)).toBeLessThan(0.005);
    });
    expect(answer.energyBalance).toBeLessThan(1e-3);
    expect(said.err).toBe('');
  });

  it('takes the case alone, with a byte order mark, as well', async () => {
    await main([SOUND, '--json']);
    const wrapped = said.out;
    said.out = '';
    expect(await main(['bare.json', '--json'])).toBe(0);
    expect(said.out).toBe(wrapped);
  });

  it('solves on where it knows a field not, and says so', async () => {
    file('more.json', JSON.stringify({ ...stacks.cases[2].case, 'col\nor': 1 }));
    expect(await main(['more.json', '--json'])).toBe(0);
    expect(said.err).toBe('more.json: left aside col or: not a field of a case. Check the spelling.\n');
    expect(JSON.parse(said.out).pours.length).toBeGreaterThan(0);
  });

  it('prints a table for people', async () => {
    expect(await main([SOUND])).toBe(0);
    expect(said.out).toBe(
      [
        'pour   hottest °C   middle °C   after h   gel after h',
        '   1         27.9        27.9      7.54         11.61',
        '   2         48.3        48.1      6.22          6.12',
        '   3         29.6        29.5      8.11         10.65',
        'Heat unaccounted for: less than 0.001 % of that released.',
        '',
      ].join('\n'),
    );
  });

  it.each<[string, string[], string]>([
    ['no file', [], 'Found 0 files; expected one.'],
    ['two files', [SOUND, 'bare.json'], 'Found 2 files; expected one.'],
    ['an option there is none', [SOUND, '--jason'], "Unknown option '--jason'"],
    ['a missing file', ['none.json'], 'none.json: there is no such file. Check the path.'],
    ['a folder', ['.'], '.: this is a folder; expected a file.'],
    ['bad JSON', [file('bad.json', '{\n"material": \n')], 'bad.json: is not JSON ('],
    ['an empty file', [file('empty.json', '')], 'empty.json: is not JSON ('],
    ['another JSON', [file('list.json', '[]')], 'list.json: found a list of 0; expected a case'],
    ['a wrong field', [file('wrong.json', JSON.stringify({ case: { ...stacks.cases[0].case, endH: 'soon' } }))], 'wrong.json: case.endH: found "soon"; expected a number from 0 h to 87600 h.'],
    ['all cases at once', [file('all.json', JSON.stringify(stacks))], 'all.json: cases: found a list of 4 cases; expected one.'],
  ])('refuses %s in one line, with nothing on stdout', async (_, args, line) => {
    expect(await main([...args, '--json'])).toBe(2);
    expect(said.out).toBe('');
    expect(said.err.startsWith(line), said.err).toBe(true);
    expect(said.err.trimEnd()).not.toContain('\n');
  });
});
