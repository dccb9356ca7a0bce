/** A class on the sheet's pour pages. What the class does is the plan's, checked in tests/core/plan/runs/class.test.ts; here it is read off the paper. */
import { describe, expect, it } from 'vitest';
import { flatItems, LIVE_HEIGHT_MM, textBox, type SheetPage, type TextItem } from '../../../src/core/sheet/document.ts';
import { layoutSheet } from '../../../src/core/sheet/layout.ts';
import { loadSheetFonts } from '../../../src/files/fonts.ts';
import { fontsOnDisk } from '../../../src/files/fonts-disk.ts';
import { make, sceneDocument } from './made-scenes.ts';

const fonts = await loadSheetFonts(fontsOnDisk(new URL('../../..', import.meta.url).pathname), '');
const textsOf = (page: SheetPage): TextItem[] => flatItems(page.items).filter((item): item is TextItem => item.kind === 'text');

/** Words of each pour's pages, in order. */
function pourPages(change: object): string[] {
  const { pages } = layoutSheet({ ...make(sceneDocument({ class: { students: 4, at: '2026-05-09T10:00', hours: 3 }, ...change })), measure: fonts.measure, printable: fonts.printable }, 'a4');
  for (const item of pages.flatMap(textsOf)) expect(textBox(item).y1, item.text).toBeLessThanOrEqual(LIVE_HEIGHT_MM + 0.1);
  return [1, 2, 3, 4].flatMap((index) => {
    const own = pages.filter((page) => page.kind === 'pour' && page.pour === index);
    return own.length === 0 ? [] : [own.map((page) => textsOf(page).map(({ text }) => text).join(' ')).join(' ').replace(/\s+/g, ' ')];
  });
}

describe('a class on the pour pages', () => {
  it('is before, in or after each pour, and paints where it paints', () => {
    const pages = pourPages({ placements: [{ id: 'p1', kind: 'plane', name: 'Lily shadows', atMm: 20, paintH: 2 }] });
    expect(pages.length).toBeGreaterThan(2);
    expect(pages[0]).toContain('up to Lily shadows, before the class');
    expect(pages[1]).toContain('In the class each student paints Lily shadows');
    for (const page of pages.slice(1)) expect(page).toContain(', after the class');
    expect(pourPages({ class: undefined }).join(' ')).not.toMatch(/class\b/);
  });

  it('sets figures without resin, and the next pour begins with a look at them', () => {
    const pages = pourPages({ class: { students: 4, at: '2026-05-09T10:00', hours: 3, youngest: 12, perStudent: { paint: [] } }, placements: [{ id: 'f1', kind: 'figure', name: 'Newt', shape: { type: 'ellipsoid', lengthMm: 60, widthMm: 16, heightMm: 14 }, baseMm: 18.333, massG: 4, hold: 'rests' }] });
    const at = pages.findIndex((page) => page.includes('In the class each student sets Newt in place, dry, on the cured, wiped surface. No resin is out.'));
    expect(at).toBeGreaterThan(0);
    expect(pages[at]).toContain('Check that Newt stands where it should.');
    expect(pages[at]).not.toContain('Brush resin on Newt');
  });

  it('gives each student who pours a cup of their own', () => {
    const pages = pourPages({ class: { students: 4, at: '2026-05-09T10:00', hours: 4, perStudent: { pour: true } }, placements: [] });
    const at = pages.findIndex((page) => page.includes(', in the class'));
    expect(pages[at]).toMatch(/In the class each student mixes and pours (a cup|\d cups) of their own/);
  });
});
