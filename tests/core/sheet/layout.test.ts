import { describe, expect, it } from 'vitest';
import type { SheetDocument, SheetPage, TextItem } from '../../../src/core/sheet/document.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM, flatItems, textBox } from '../../../src/core/sheet/document.ts';
import { layoutSheet } from '../../../src/core/sheet/layout.ts';
import { fontsOnDisk } from '../../../src/files/fonts-disk.ts';
import { loadSheetFonts } from '../../../src/files/fonts.ts';
import { HARD_SCENES, make, sceneDocument } from './made-scenes.ts';
import type { Made } from './made-scenes.ts';

const ROOT = new URL('../../..', import.meta.url).pathname;
const fonts = await loadSheetFonts(fontsOnDisk(ROOT), '');
/** mm. Boxes are em boxes, drawn letters smaller: touching by less than a hair line is no overlap. */
const HAIR_MM = 0.1;
/** Points. look.md: printed text at least 11, plainest tick numerals at least 9. */
const LEAST_PT = 11;
const LEAST_TICK_PT = 9;

const lay = (made: Made, paper: 'a4' | 'letter' = 'a4'): SheetDocument => layoutSheet({ ...made, measure: fonts.measure, printable: fonts.printable }, paper);
const textsOf = (page: SheetPage): TextItem[] => flatItems(page.items).filter((item): item is TextItem => item.kind === 'text');
const wordsOf = (page: SheetPage): string => textsOf(page).map(({ text }) => text).join(' ').replaceAll('\u00a0', ' ');

describe.each(Object.entries(HARD_SCENES))('the sheet of %s', (_name, made) => {
  const document = lay(made());

  it('keeps every text apart from every other', () => {
    for (const [number, page] of document.pages.entries()) {
      const boxes = textsOf(page).map((item) => ({ item, ...textBox(item) }));
      for (let i = 0; i < boxes.length; i++) {
        for (let j = i + 1; j < boxes.length; j++) {
          const [a, b] = [boxes[i], boxes[j]];
          const apart = a.x1 <= b.x0 + HAIR_MM || b.x1 <= a.x0 + HAIR_MM || a.y1 <= b.y0 + HAIR_MM || b.y1 <= a.y0 + HAIR_MM;
          expect(apart, `page ${number + 1} (${page.title}): “${a.item.text}” overlaps “${b.item.text}”`).toBe(true);
        }
      }
    }
  });

  it('stays inside the live area', () => {
    for (const page of document.pages) {
      for (const item of textsOf(page)) {
        const box = textBox(item);
        expect(box.x0 >= -HAIR_MM && box.x1 <= LIVE_WIDTH_MM + HAIR_MM && box.y0 >= -HAIR_MM && box.y1 <= LIVE_HEIGHT_MM + HAIR_MM, `${page.title}: “${item.text}” at ${JSON.stringify(box)}`).toBe(true);
      }
    }
  });

  it('prints nothing under 11 points but tick numerals and join marks', () => {
    for (const item of document.pages.flatMap(textsOf)) {
      const least = /^(\d[\d,.]*|join \d+)$/.test(item.text) ? LEAST_TICK_PT : LEAST_PT;
      expect(item.sizePt, item.text).toBeGreaterThanOrEqual(least);
    }
  });

  it('has a page for every pour', () => {
    const { plan } = made();
    const pours = new Set(document.pages.filter(({ kind }) => kind === 'pour').map(({ pour }) => pour));
    expect([...pours]).toEqual(plan.pours.map(({ index }) => index));
  });
});

describe('the order of pages', () => {
  it('is cover, section, get ready, pours, figures, shopping, calendar, strip, finish', () => {
    const kinds = lay(make(sceneDocument())).pages.map(({ kind }) => kind);
    expect(kinds.filter((kind, i) => kind !== kinds[i - 1])).toEqual(['cover', 'section', 'prepare', 'pour', 'figures', 'shopping', 'calendar', 'strip', 'finish']);
  });

  it('and the layout itself are the same on both papers', () => {
    const made = make(sceneDocument());
    const [a4, letter] = [lay(made, 'a4'), lay(made, 'letter')];
    expect(letter.pages).toEqual(a4.pages);
    // ISO 216; ANSI Y14.1 letter, 8½ × 11 in.
    expect([a4.widthMm, a4.heightMm, letter.widthMm, letter.heightMm]).toEqual([297, 210, 279.4, 215.9]);
  });
});

describe('the mix card', () => {
  it('reads cumulatively and shows part B as the difference of the two stops', () => {
    const made = make(sceneDocument());
    const pour = made.plan.pours[0];
    const [afterA, afterB] = pour.batches[0].scaleStopsG;
    const words = wordsOf(lay(made).pages.find((page) => page.pour === pour.index)!);
    expect(words).toContain(`part A (resin) ${afterA.toFixed(1)} ${afterA.toFixed(1)}`);
    expect(words).toContain(`part B (hardener) ${(afterB - afterA).toFixed(1)} ${afterB.toFixed(1)}`);
    expect(words).toContain(`dye, weighed apart, last ${pour.batches[0].tintG.toFixed(2)}`);
  });

  it('numbers the cups where there are several', () => {
    const document = sceneDocument();
    const made = make({ ...document, formulas: [{ ...(document.formulas as object[])[0], maxBatchG: 300 }] });
    const cups = made.plan.pours[0].batches.length;
    expect(cups).toBeGreaterThan(1);
    const words = wordsOf(lay(made).pages.find((page) => page.pour === 1)!);
    expect(words).toContain(`Mix card: ${cups} cups`);
    for (let cup = 1; cup <= cups; cup++) expect(words).toMatch(new RegExp(`\\b${cup}\\b.* of ${cups}`));
  });
});

describe('a halt', () => {
  const reason = 'The two ratios differ by 18.6 % in hardener.';
  const finding = { code: 'ratio-conflict', severity: 'halt', subject: 'formula low', message: reason, remedy: 'Read the label again.' } as const;

  it('of the whole plan says DO NOT POUR and why on every page, and leaves out every mix card', () => {
    const document = lay(make(sceneDocument(), { findings: [finding] }));
    for (const page of document.pages) {
      expect(page.halted, page.title).toBe(true);
      expect(wordsOf(page), page.title).toContain('DO NOT POUR');
      expect(wordsOf(page), page.title).toContain(reason);
      expect(wordsOf(page), page.title).not.toMatch(/Mix card:|scale, g|add, g/);
    }
  });

  it('of one pour stops that pour, and leaves the others their cards', () => {
    const made = make(sceneDocument(), { findings: [{ ...finding, pours: [2] }] });
    const document = lay(made);
    const [first, second] = [1, 2].map((index) => document.pages.find((page) => page.pour === index)!);
    expect(wordsOf(first)).toContain('Mix card');
    expect(wordsOf(first)).not.toContain('DO NOT POUR');
    expect(wordsOf(second)).toContain('DO NOT POUR');
    expect(wordsOf(second)).toContain(reason);
    expect(wordsOf(second)).not.toContain('Mix card:');
    const calendar = document.pages.filter(({ kind }) => kind === 'calendar').map(wordsOf).join(' ');
    expect(calendar).toContain(`pour 2 DO NOT POUR. ${reason}`);
  });

  it('comes before cautions on page 1', () => {
    const caution = { ...finding, severity: 'caution', message: 'A caution that was found earlier.' } as const;
    const words = wordsOf(lay(make(sceneDocument(), { findings: [caution, { ...finding, pours: [1] }] })).pages[0]);
    expect(words.lastIndexOf(reason)).toBeLessThan(words.indexOf(caution.message));
  });
});

describe('heat', () => {
  const made = HARD_SCENES['pours that are hot, and near to it']();
  const document = lay(made);
  const pageOf = (index: number) => wordsOf(document.pages.find((page) => page.pour === index)!);

  it('is on the page of each pour: its range, when it is warmest, what is safe, which room would be too much', () => {
    expect(pageOf(1)).toContain('Keep the room under 31 °C. Warmest about Mon 14:00: warm, 48 to 121 °C . Safe here to 20.2 mm.');
    expect(pageOf(1)).toContain('Mix card');
    expect(wordsOf(document.pages[0])).toContain('made for a test; it only asks for less than the label');
  });

  it('that is too much says DO NOT POUR, why and what helps, and leaves out the mix card', () => {
    const hot = made.plan.pours.filter(({ heat, depthMm }) => depthMm > heat!.safeDepthMm);
    expect(hot.length).toBeGreaterThan(0);
    for (const { index } of hot) {
      expect(pageOf(index)).toContain('DO NOT POUR');
      expect(pageOf(index)).toContain('is safe there: the foam wall holds the heat.');
      expect(pageOf(index)).toContain('Keep the room at 18 °C until it has cooled. Then 18.2 mm are safe, and it gets 38 to 55 °C.');
      expect(pageOf(index)).not.toContain('Mix card:');
    }
  });

  it('of the finished piece is in its care note', () => {
    expect(wordsOf(document.pages.find(({ kind }) => kind === 'finish')!)).toContain('Care note, for whoever gets it Softens. Soft cloth');
  });

  it('is not told where the label alone counts', () => {
    const words = lay(make(sceneDocument())).pages.map(wordsOf).join(' ');
    expect(words).not.toContain('Warmest about');
    expect(words).toContain('by the label’s greatest depth alone');
  });
});

describe('the fill-mark strip', () => {
  it.each(['a plain scene', 'twelve pours of 4 mm', 'a tall mold'])('names every level of %s', (name) => {
    const made = HARD_SCENES[name]();
    const words = lay(made).pages.filter(({ kind }) => kind === 'strip').map(wordsOf).join(' ');
    for (const pour of made.plan.pours) expect(words).toMatch(new RegExp(`Pour ${pour.index} [\\d.]+ up`));
    expect(words).toContain('Floor 0 up');
    expect(words).toContain('Rim');
  });
});

describe('the calendar', () => {
  it('has every step of the plan', () => {
    const made = make(sceneDocument());
    const words = lay(made).pages.filter(({ kind }) => kind === 'calendar').map(wordsOf).join(' ');
    for (const { text } of made.plan.steps) expect(words).toContain(text.replaceAll('\u00a0', ' '));
  });
});

describe('names as long as a scene allows', () => {
  it.each([['one word', 'x'.repeat(2000)], ['letters no typeface has', '\u{1f438}'.repeat(500)]])('of %s end in bounded time and in the live area', (_what, name) => {
    const began = performance.now();
    const document = lay(make(sceneDocument({ name, placements: [{ id: 'p1', kind: 'plane', name, atMm: 20 }] })));
    // ms. Measured 1,000 to 7,000 on two cores shared by seven.
    expect(performance.now() - began).toBeLessThan(30_000);
    for (const item of document.pages.flatMap(textsOf)) expect(textBox(item).x1).toBeLessThanOrEqual(LIVE_WIDTH_MM + HAIR_MM);
  });
});

describe('a name in another script', () => {
  it('marks letters that the typefaces lack, and says so', () => {
    const words = wordsOf(lay(make(sceneDocument({ name: '池 pond' }))).pages[0]);
    expect(words).toContain('[?] pond');
    expect(words).toContain('can’t be printed');
  });
});
