/** The plan command's templates: a folder of files that are all there or none, and never over the person's own. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, describe, expect, it } from 'vitest';
import { barsFrom } from '../../src/cli/templates.ts';
import { main } from '../../src/cli/plan.ts';
import { readPdf } from '../files/pdf-lines.ts';
import { scene } from '../plan/planning.ts';
import { listening } from './said.ts';

const folder = mkdtempSync(join(tmpdir(), 'stillpool-templates-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);
const PLANES = [
  { id: 'p1', kind: 'plane', name: 'Ground', atMm: 10, art: { file: 'art/leaf.svg', widthMm: 60 } },
  { id: 'p2', kind: 'plane', name: 'Ripples', atMm: 30 },
];
const SCENE = JSON.stringify(scene({ fillMm: 44, placements: PLANES }));
const said = listening(folder);

beforeEach(() => {
  mkdirSync(at('art'), { recursive: true });
  writeFileSync(at('art/leaf.svg'), '<svg width="6cm" height="3cm" viewBox="0 0 60 30"><ellipse cx="30" cy="15" rx="20" ry="10"/></svg>');
  writeFileSync(at('a.scene.json'), SCENE);
});

describe('--templates', () => {
  it('makes the folder and in it a PDF and an SVG of each plane and of the stencils, on the paper asked for', async () => {
    expect(await main(['a.scene.json', '--templates', 'out', '--paper', 'letter', '--bars', '99.6x100.2'])).toBe(0);
    expect(readdirSync(at('out')).sort()).toEqual(['01-ground.pdf', '01-ground.svg', '02-ripples.pdf', '02-ripples.svg', 'stencils.pdf', 'stencils.svg']);
    const [page] = await readPdf(readFileSync(at('out/01-ground.pdf')));
    // ANSI Y14.1 letter, 8½ × 11 in.
    expect([page.widthMm, page.heightMm].sort().map((mm) => Math.round(mm * 10) / 10)).toEqual([215.9, 279.4]);
    expect(page.text).toContain('99.6 mm across and 100.2 mm up');
    // An ellipse of 40 × 20 mm, drawn larger across and smaller up by what the printer does.
    const spans = page.paths.filter((path) => path.length > 60).map((path) => [0, 1].map((axis) => Math.max(...path.map((point) => point[axis])) - Math.min(...path.map((point) => point[axis]))));
    expect(spans.some(([x, y]) => Math.abs(x * 0.996 - 40) < 0.01 && Math.abs(y * 1.002 - 20) < 0.01)).toBe(true);
  });

  it('goes over its own files, and takes the bars that the scene keeps', async () => {
    writeFileSync(at('a.scene.json'), JSON.stringify(scene({ fillMm: 44, placements: PLANES, bench: { start: '2026-05-04T08:00', printBars: { xMm: 98, yMm: 100 } } })));
    expect(await main(['a.scene.json', '--templates', 'out'])).toBe(0);
    expect((await readPdf(readFileSync(at('out/01-ground.pdf'))))[0].text).toContain('98 mm across');
  });

  it('names templates of a plane that has another name now, and leaves them to the person', async () => {
    writeFileSync(at('out/notes.pdf'), 'mine');
    writeFileSync(at('a.scene.json'), SCENE.replace('"Ground"', '"Bottom"'));
    expect(await main(['a.scene.json', '--templates', 'out'])).toBe(0);
    expect(said.err).toMatch(/also holds 01-ground\.pdf and 01-ground\.svg, which this piece does not have now/);
    expect(said.err).not.toContain('notes.pdf');
    for (const name of ['01-ground.pdf', '01-ground.svg', '01-bottom.pdf', 'notes.pdf']) expect(existsSync(at(`out/${name}`))).toBe(true);
    for (const name of ['01-bottom.pdf', '01-bottom.svg', 'notes.pdf']) rmSync(at(`out/${name}`));
    writeFileSync(at('a.scene.json'), SCENE);
    said.err = '';
    expect(await main(['a.scene.json', '--templates', 'out'])).toBe(0);
    expect(said.err).toBe('');
  });

  it('tells on the template what of the art is missing or can’t be drawn, and draws the rest', async () => {
    writeFileSync(at('art/leaf.svg'), 'no drawing');
    writeFileSync(at('a.scene.json'), JSON.stringify(scene({ fillMm: 44, placements: [PLANES[0], { ...PLANES[1], art: { file: 'art/gone.svg', widthMm: 60 } }] })));
    expect(await main(['a.scene.json', '--templates', 'out'])).toBe(0);
    expect((await readPdf(readFileSync(at('out/01-ground.pdf'))))[0].text).toContain('expected <svg>');
    expect((await readPdf(readFileSync(at('out/02-ripples.pdf'))))[0].text).toContain('art/gone.svg of Ripples is not there');
  });

  it.each([
    [['--templates', 'a.scene.json'], '"a.scene.json" is a file'],
    [['--templates', 'nowhere/deep'], '--templates: can’t write "nowhere/deep/'],
    [['--templates', 'out', '--bars', '80x100'], '--bars: found "80x100"; expected what the printed bars measured across and up, each from 90 to 110 mm'],
    [['--bars', '99x100'], '--bars: found no --templates'],
    [['--templates', 'art', '--pdf', 'art/01-ground.pdf'], 'is what --templates writes too'],
  ])('%j is refused in one line and writes nothing', async (args, words) => {
    rmSync(at('out'), { recursive: true, force: true });
    writeFileSync(at('a.scene.json'), SCENE);
    said.err = '';
    expect(await main(['a.scene.json', ...args])).toBe(2);
    expect(said.err.replaceAll(`${folder}/`, '')).toContain(words);
    expect(said.err.trim().split('\n')).toHaveLength(1);
    expect(existsSync(at('out'))).toBe(false);
    expect(readdirSync(at('art'))).toEqual(['leaf.svg']);
  });

  it('never goes over the art it was made from', async () => {
    const art = '<svg viewBox="0 0 60 30"><rect width="9" height="9"/></svg>';
    writeFileSync(at('art/01-ground.svg'), art);
    writeFileSync(at('a.scene.json'), JSON.stringify(scene({ fillMm: 44, placements: [{ ...PLANES[0], art: { file: 'art/01-ground.svg', widthMm: 60 } }] })));
    expect(await main(['a.scene.json', '--templates', 'art'])).toBe(2);
    expect(readFileSync(at('art/01-ground.svg'), 'utf8')).toBe(art);
    rmSync(at('art/01-ground.svg'));
  });

  it('says so where there is no plane', async () => {
    writeFileSync(at('a.scene.json'), JSON.stringify(scene({ fillMm: 44 })));
    said.err = '';
    expect(await main(['a.scene.json', '--templates', 'none'])).toBe(2);
    expect(said.err).toContain('found no painted plane in this scene; expected at least one');
    expect(existsSync(at('none'))).toBe(false);
  });
});

describe('--bars', () => {
  it.each([['99.6x100.2', 99.6, 100.2], ['100 × 100', 100, 100], ['90mm x 110mm', 90, 110]])('%s', (text, xMm, yMm) => {
    expect(barsFrom(text)).toEqual({ xMm, yMm });
  });
  it.each(['', '99.6', '99.6x', 'x', '99.6x100.2x3', '1e2x100', '-99x100', 'NaNx100', '89.9x100', '100x110.1'])('%s is none', (text) => {
    expect(() => barsFrom(text)).toThrow(/^--bars: found /);
  });
});
