/** The plan command with several scenes: one answer for all of them, in every form, or a refusal that says why. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import ICAL from 'ical.js';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { afterAll, describe, expect, it } from 'vitest';
import { main } from '../../src/cli/plan.ts';
import { checkTogether } from '../plan/check-together.ts';
import { scene } from '../plan/planning.ts';
import { listening } from './said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillpool-together-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);
const said = listening(folder);
const plane = { id: 'p', kind: 'plane', name: 'Lilies', atMm: 6 };
const POND = { ...scene({ fillMm: 12, placements: [plane] }), name: 'Pond' };
const REEF = { ...scene({ fillMm: 24 }), name: 'Reef' };
const write = (name: string, document: object) => writeFileSync(at(name), JSON.stringify(document));
write('pond.scene.json', POND);
write('reef.scene.json', REEF);
write('cold.scene.json', { ...REEF, room: { temperatureC: 17 } });
write('thin.scene.json', { ...scene({ fillMm: 2 }), name: 'Thin' });
write('same.scene.json', { ...REEF, name: 'Pond' });

describe('the plan command with several scenes', () => {
  it('gives one object with what is together and each plan, and every rule kept', async () => {
    expect(await main(['pond.scene.json', 'reef.scene.json', '--json'])).toBe(0);
    const { together, plans } = JSON.parse(said.out);
    expect(plans.map(({ scene: name }: { scene: string }) => name)).toEqual(['Pond', 'Reef']);
    expect(checkTogether([POND, REEF], { together, plans })).toEqual([]);
    expect(together.buys.pours).toBe(1);
    expect(together.words.replace(/\u00a0/g, ' ')).toMatch(/^All done .* pours at the bench instead of 3/);
  });

  it('writes one calendar, one table and one file of sheets that hold them all', async () => {
    expect(await main(['pond.scene.json', 'reef.scene.json', '--text', '--ics', 'all.ics', '--csv', 'all.csv', '--pdf', 'all.pdf'])).toBe(0);
    expect(said.out).toMatch(/Poured together.*At the bench.*Pond\n====.*Reef\n====/s);
    // Kits are bought once, for all of them; a formula is told by its name.
    expect(said.out.match(/^To buy/gm)).toEqual(['To buy']);
    expect(said.out.match(/^Its share; kits as if bought for it alone/gm)).toHaveLength(2);
    const [, formula] = said.out.match(/To buy for all of them, at least\n {2}([^:]+):/)!;
    expect(said.out).toContain(`cup of ${formula} for`);
    const entries = new ICAL.Component(ICAL.parse(readFileSync(at('all.ics'), 'utf8'))).getAllSubcomponents('vevent');
    const uids = entries.map((entry) => String(entry.getFirstPropertyValue('uid')));
    expect(new Set(uids).size).toBe(uids.length);
    const summaries = entries.map((entry) => String(entry.getFirstPropertyValue('summary')));
    for (const name of ['Pond', 'Reef']) expect(summaries.some((summary) => summary.startsWith(`${name}: pour 1`))).toBe(true);
    const rows = readFileSync(at('all.csv'), 'utf8').trim().split('\r\n');
    expect(rows.map((row) => row.split(',')[0])).toEqual(['scene', 'Pond', 'Pond', 'Reef']);
    const pdf = await getDocument({ data: new Uint8Array(readFileSync(at('all.pdf'))), verbosity: 0 }).promise;
    const texts: string[] = [];
    for (let page = 1; page <= pdf.numPages; page++) texts.push((await (await pdf.getPage(page)).getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join(''));
    expect(texts[0]).toContain('At the bench');
    expect(texts[0]).toContain('mixed once');
    expect(texts[0]).toMatch(/Of it [\d.]+\s*g for\s*Pond and [\d.]+\s*g for\s*Reef/);
    // Every page after the first names its piece.
    expect(texts.slice(1).every((text) => text.includes('Pond') || text.includes('Reef'))).toBe(true);
    expect(texts.filter((text) => text.includes('Mixed once for')).length).toBe(2);
  });

  it('ends with 1 where one of them has a halt, and mixes nothing with it', async () => {
    expect(await main(['thin.scene.json', 'reef.scene.json', '--json'])).toBe(1);
    const { plans } = JSON.parse(said.out);
    expect(plans.some(({ pours }: { pours: { shared?: object }[] }) => pours.some(({ shared }) => shared))).toBe(false);
  });

  it('tells pieces of one name apart', async () => {
    expect(await main(['pond.scene.json', 'same.scene.json', '--json'])).toBe(0);
    expect(JSON.parse(said.out).plans.map(({ scene: name }: { scene: string }) => name)).toEqual(['Pond (pond)', 'Pond (same)']);
  });

  it.each([
    [['pond.scene.json', 'cold.scene.json'], 'cold.scene.json: room.temperatureC: found 17; expected 23'],
    [['pond.scene.json', './pond.scene.json'], 'Found "'],
    [['pond.scene.json', 'none.scene.json'], 'none.scene.json'],
    [['pond.scene.json', 'reef.scene.json', '--templates', 'out'], '--templates: found 2 scenes; expected one.'],
    [['pond.scene.json', 'reef.scene.json', '--what-if', 'room=20 C'], '--what-if: found 2 scenes; expected one.'],
    [['pond.scene.json', 'reef.scene.json', '--csv', 'reef.scene.json'], 'is the scene or a file it uses'],
    [[], 'Found no file'],
  ])('refuses %j in one line, with nothing written', async (args, line) => {
    const before = readdirSync(folder).sort();
    expect(await main([...args])).toBe(2);
    expect(said.err).toContain(line);
    expect(said.err.trim().split('\n')).toHaveLength(1);
    expect(said.out).toBe('');
    expect(readdirSync(folder).sort()).toEqual(before);
  });
});
