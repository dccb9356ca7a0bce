/** The plan command's files beside the sheet: calendar and table, whole or not at all. */
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/plan.ts';
import { writeOutputs } from '../../src/cli/write-outputs.ts';
import { scene } from '../plan/planning.ts';
import { listening } from './said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillpool-plan-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const SCENE = JSON.stringify(scene({ fillMm: 44 }));
const at = (name: string) => join(folder, name);

const said = listening(folder);
beforeEach(() => writeFileSync(at('a.scene.json'), SCENE));

describe('the plan command', () => {
  it('writes calendar and table at once, and updates the calendar in its place', async () => {
    expect(await main(['a.scene.json', '--ics', 'a.ics', '--csv', 'a.csv'])).toBe(0);
    const entries = () => new ICAL.Component(ICAL.parse(readFileSync(at('a.ics'), 'utf8'))).getAllSubcomponents('vevent');
    const before = entries().map((entry) => String(entry.getFirstPropertyValue('uid')));
    expect(readFileSync(at('a.csv'), 'utf8').split('\r\n')).toHaveLength(2 + 2);
    writeFileSync(at('a.scene.json'), JSON.stringify(scene({ fillMm: 20 })));
    expect(await main(['a.scene.json', '--ics', 'a.ics'])).toBe(0);
    expect(entries().map((entry) => String(entry.getFirstPropertyValue('uid'))).sort()).toEqual([...before].sort());
    expect(entries().some((entry) => entry.getFirstPropertyValue('status') === 'CANCELLED')).toBe(true);
  });

  it('makes no calendar of a plan without a first day, and says what to do', async () => {
    writeFileSync(at('undated.scene.json'), JSON.stringify({ ...scene({ fillMm: 20 }), bench: {} }));
    const before = readdirSync(folder);
    expect(await main(['undated.scene.json', '--ics', 'undated.ics', '--csv', 'undated.csv'])).toBe(2);
    expect(said.err).toMatch(/^--ics: found no first day in .*undated\.scene\.json; expected one.* Give --start/);
    expect(await main(['a.scene.json', 'undated.scene.json', '--ics', 'undated.ics', '--start', '2026-05-04T08:00'])).toBe(0);
    expect(await main(['undated.scene.json', '--ics', 'undated.ics', '--start', '2000-02-28T08:00'])).toBe(0);
    expect(readdirSync(folder).filter((name) => !before.includes(name))).toEqual(['undated.ics']);
  });

  it('goes over neither the scene nor another of its outputs, and leaves nothing half done', async () => {
    for (const [args, line] of [
      [['--ics', 'a.scene.json'], '--ics: "'],
      [['--csv', './a.scene.json'], '--csv: "'],
      [['--ics', 'both', '--csv', 'both'], '--csv: "'],
      [['--csv', 'nowhere/a.csv'], '--csv: can’t write "'],
      [['--ics', 'both', '--csv', 'nowhere/a.csv'], '--csv: can’t write "'],
      [['--ics', 'both', '--csv', '.'], '--csv: can’t write "'],
    ] as const) {
      said.err = '';
      expect(await main(['a.scene.json', ...args])).toBe(2);
      expect(said.err.startsWith(line), said.err).toBe(true);
      expect(readFileSync(at('a.scene.json'), 'utf8')).toBe(SCENE);
    }
    expect(readdirSync(folder).filter((name) => name.endsWith('.tmp') || name === 'both')).toEqual([]);
    writeFileSync(at('a.scene.json'), JSON.stringify(scene({ fillMm: 44, placements: [{ id: 'p', kind: 'plane', atMm: 20 }] })));
    expect(await main(['a.scene.json', '--ics', 'new/a.ics', '--csv', 'nowhere/a.csv', '--templates', 'new'])).toBe(2);
    expect(readdirSync(folder)).not.toContain('new');
    expect(await main(['a.scene.json', '--ics', 'new/a.ics', '--templates', 'new'])).toBe(0);
    expect(readdirSync(at('new'))).toContain('a.ics');
  });

  it('puts back what stood there when a later file can’t be moved to its place', () => {
    for (const name of ['first', 'third']) writeFileSync(at(name), 'former');
    const outputs = ['first', 'second', 'third'].map((name) => ({ name: 'csv', path: at(name), content: 'new' }));
    const theirs = () => readdirSync(folder).filter((name) => /^(first|second|third|made)/.test(name)).sort();
    // Where the last one's former content would be kept meanwhile, there is a folder.
    const inTheWay = `third.${process.pid}.old`;
    mkdirSync(at(inTheWay));
    expect(() => writeOutputs(outputs, at('made'))).toThrow(/^--csv: can’t write ".*third" \(/);
    expect(theirs()).toEqual(['first', 'third', inTheWay]);
    expect(['first', 'third'].map((name) => readFileSync(at(name), 'utf8'))).toEqual(['former', 'former']);
    rmSync(at(inTheWay), { recursive: true });
    writeOutputs(outputs);
    expect(theirs()).toEqual(['first', 'second', 'third']);
    expect(theirs().map((name) => readFileSync(at(name), 'utf8'))).toEqual(['new', 'new', 'new']);
  });
});
