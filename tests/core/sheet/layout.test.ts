import { describe, expect, it } from 'vitest';
import type { SheetDocument, SheetPage, TextItem } from '../../../src/core/sheet/document.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM, flatItems, textBox } from '../../../src/core/sheet/document.ts';
import { layoutSheet } from '../../../src/core/sheet/layout.ts';
import type { ChosenUnits } from '../../../src/core/units/in-units.ts';
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

const lay = (made: Made, paper: 'a4' | 'letter' = 'a4', units?: ChosenUnits): SheetDocument => layoutSheet({ ...made, measure: fonts.measure, printable: fonts.printable, units }, paper);
const INCHES: ChosenUnits = { length: 'in', volume: 'floz' };
const textsOf = (page: SheetPage): TextItem[] => flatItems(page.items).filter((item): item is TextItem => item.kind === 'text');
const wordsOf = (page: SheetPage): string => textsOf(page).map(({ text }) => text).join(' ').replaceAll('\u00a0', ' ');

const IN_BOTH = Object.entries(HARD_SCENES).flatMap(([name, made]) => [[name, made, undefined], [`${name}, in inches`, made, INCHES]] as const);

describe.each(IN_BOTH)('the sheet of %s', (_name, made, units) => {
  const piece = made();
  const document = lay(piece, 'a4', units);

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
      const least = /^(\d[\d,.]*|(\d+\u00a0)?\d⁄\d|join \d+)$/.test(item.text) ? LEAST_TICK_PT : LEAST_PT;
      expect(item.sizePt, item.text).toBeGreaterThanOrEqual(least);
    }
  });

  it('says on every page how it is cast', () => {
    for (const page of document.pages) expect(wordsOf(page)).toContain(`cast ${piece.scene.cast.replace('-', ' ')}`);
  });

  it('has a page for every pour', () => {
    const { plan } = piece;
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

describe('a planned finish', () => {
  const finishOf = (made: ReturnType<typeof make>) => lay(made).pages.filter(({ kind }) => kind === 'finish');
  const made = make(sceneDocument({ finishing: { top: 'flood-coat', sides: 'polished', bottom: 'hidden', base: 'felt' } }));

  it('fits one page: a box for every grit of every face, the readings of every coat, when it is done', () => {
    const pages = finishOf(made);
    expect(pages).toHaveLength(1);
    const texts = textsOf(pages[0]).map(({ text }) => text);
    // The trade's ladder: the sides through all of it, the top to 400 and coated.
    for (const grit of ['180', '240', '320', '400']) expect(texts.filter((text) => text === grit), grit).toHaveLength(2);
    for (const grit of ['600', '800', '1000', '1500', '2000', '3000', 'compound', 'polish']) expect(texts.filter((text) => text === grit), grit).toHaveLength(1);
    const [coat] = made.plan.finishing!.coats;
    for (const stop of coat.batches[0].scaleStopsG) expect(wordsOf(pages[0])).toContain(`${stop.toFixed(1)} g`);
    expect(wordsOf(pages[0])).toContain('Never dry');
  });

  it('is in inches and fluid ounces where they are chosen', () => {
    const words = lay(HARD_SCENES['a finish of every kind'](), 'a4', INCHES).pages.filter(({ kind }) => kind === 'finish').map(wordsOf).join(' ');
    expect(words.match(/.{20}\d (?:mm|mL)\b.{10}/g)).toBeNull();
    expect(words).toContain('fl oz');
  });

  it('gives no reading of a coat that must not be poured', () => {
    const halted = HARD_SCENES['a finish whose coat must not be poured']();
    const words = finishOf(halted).map(wordsOf).join(' ');
    expect(words).toContain('DO NOT POUR');
    const [coat] = halted.plan.finishing!.coats;
    for (const stop of coat.batches[0].scaleStopsG) expect(words).not.toContain(`${stop.toFixed(1)} g`);
  });
});

describe('in inches and fluid ounces', () => {
  const made = make(sceneDocument());
  const document = lay(made, 'a4', INCHES);
  const all = document.pages.map(wordsOf).join(' ');
  /** mm of `1 3⁄16`. 25.4 mm an inch and 29.5735 mL a US fluid ounce by definition (NIST SP 811, appendix B). */
  const mmOf = (text: string): number => text.split(' ').reduce((sum, part) => sum + (part.includes('⁄') ? Number(part.split('⁄')[0]) / Number(part.split('⁄')[1]) : Number(part)), 0) * 25.4;

  it('fill marks are never higher than they are, nor nearer to the rim, by less than two sixteenths', () => {
    for (const pour of made.plan.pours) {
      const words = wordsOf(document.pages.find((page) => page.pour === pour.index)!);
      const [, up, rim] = /Pour at the low side to ([\d⁄ ]+) up, ([\d⁄ ]+) in from the rim/.exec(words)!;
      const markMm = made.scene.mold.heightMm - pour.fillMarkFromRimMm;
      // A twentieth of a millimeter either way is the same sixteenth; a bench ruler shows no less than half of one.
      expect(mmOf(up) - markMm).toBeLessThanOrEqual(0.05);
      expect(markMm - mmOf(up)).toBeLessThan(25.4 / 16);
      expect(mmOf(rim) - pour.fillMarkFromRimMm).toBeGreaterThanOrEqual(-0.05);
      expect(mmOf(rim) - pour.fillMarkFromRimMm).toBeLessThan(25.4 / 16);
    }
  });

  it('gives the millimeters of a mark beside it in the section', () => {
    for (const pour of made.plan.pours) expect(wordsOf(document.pages.find((page) => page.pour === pour.index)!)).toContain(`in from the rim (${Math.round(pour.fillMarkFromRimMm * 10) / 10} mm)`);
  });

  it('leaves no length in mm but beside inches, the check bars and the label’s own depths, and no volume in mL but beside fluid ounces', () => {
    const left = all.replaceAll(/\([\d.,]+(?: × [\d.,]+)* (?:mm|mL)\)/g, '').replaceAll(/fl oz, [\d,]+ mL/g, '').replaceAll(/100 mm/g, '').replaceAll(/\d+ mm \((?:just under )?[\d⁄ ]+ in\)/g, '');
    expect(left.match(/.{30}\d mm\b.{10}/g)).toBeNull();
    expect(left.match(/.{30}\d mL\b.{10}/g)).toBeNull();
    expect(left).not.toContain('height, mm');
    expect(all).toContain('7 7⁄8 × 4 3⁄4 × 2 3⁄16 in (200 × 120 × 55 mm)');
  });

  it('leaves grams, degrees and grits as they are', () => {
    const metric = lay(made).pages.map(wordsOf).join(' ');
    for (const pattern of [/\d[\d.,]* g\b/g, /\d+ °C/g, /320 to 600/g, /part A \(resin\) [\d.]+ [\d.]+/g]) {
      // Every page's head says the room, and the pages may be fewer.
      expect(new Set(all.match(pattern))).toEqual(new Set(metric.match(pattern)));
    }
  });

  it('writes amounts of a pour in fluid ounces that add up', () => {
    const [pour] = made.plan.pours;
    const [, line, spare, cup, sum] = /([\d.]+) to the line, ([\d.]+) spare, ([\d.]+) in the cup: ([\d.]+) fl oz/.exec(wordsOf(document.pages.find((page) => page.pour === 1)!))!;
    // Parts to a hundredth, the sum to a tenth from ten up.
    expect(Number(line) + Number(spare) + Number(cup)).toBeCloseTo(pour.mixMl / 29.5735, 1);
    expect(Math.abs(Number(sum) - pour.mixMl / 29.5735)).toBeLessThanOrEqual(0.05001);
  });

  it('keeps to inches alone where mL were chosen', () => {
    const mixed = lay(made, 'a4', { length: 'in', volume: 'mL' }).pages.map(wordsOf).join(' ');
    expect(mixed).toContain('in from the rim');
    expect(mixed).toMatch(/Mix card: one cup, [\d,.]+ mL/);
  });

  it('ticks the fill-mark strip in sixteenths', () => {
    const strip = document.pages.find(({ kind }) => kind === 'strip')!;
    const levels = flatItems(strip.items).flatMap((item) => (item.kind === 'path' && item.rings.length === 1 && item.rings[0].length === 2 && item.rings[0].every(([x]) => x <= 5) && item.rings[0][0][1] === item.rings[0][1][1] && item.rings[0][0][0] === 0 ? [item.rings[0][0][1]] : []));
    const sorted = [...new Set(levels)].sort((a, b) => a - b);
    const gaps = sorted.slice(1).map((y, i) => y - sorted[i]);
    expect(gaps.filter((gap) => Math.abs(gap - 25.4 / 16) < 1e-6).length).toBe(Math.floor((made.scene.mold.heightMm / 25.4) * 16 + 1e-9));
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

describe('the mix card of three cups over two kilograms', () => {
  const made = HARD_SCENES['three cups over two kilograms, dyed, over a painted floor, in a tall mold']();
  const pages = lay(made).pages.filter(({ kind }) => kind === 'pour');

  it('is whole on the one page of its pour', () => {
    expect(made.plan.pours[0].batches).toHaveLength(3);
    expect(pages.map(({ pour }) => pour)).toEqual(made.plan.pours.map(({ index }) => index));
  });

  it('keeps what to add apart from the words before it, by two spaces', () => {
    const words = textsOf(pages[0]);
    for (const label of ['part A (resin)', 'part B (hardener)']) {
      const row = textBox(words.find(({ text }) => text === label)!);
      const add = words.map(textBox).filter((box) => box.x0 > row.x0 && Math.abs(box.y0 - row.y0) < HAIR_MM).sort((a, b) => a.x0 - b.x0)[0];
      expect(add.x0 - row.x1, label).toBeGreaterThan(2 * fonts.measure(' ', 'sans', 11.5));
    }
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
    expect(wordsOf(document.pages[0])).toContain('worked out from the label; it only asks for less than the label allows');
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

describe('how deep things look', () => {
  it.each([
    ['face-up', 24, 'the floor 25.8', 'Stone 22.6 to 17.4'],
    ['face-down', 16, 'the back 25.8', 'Stone 3.2 to 8.4'],
  ] as const)('is told of planes, figures and the far side, %s', (cast, fishMm, far, stone) => {
    const made = make(sceneDocument({
      cast, fillMm: 40, fills: [{ toMm: 40, formula: 'low' }], formulas: [{ ...(sceneDocument().formulas as object[])[0], refractiveIndex: 1.55 }],
      placements: [
        { id: 'fish', kind: 'plane', name: 'Fish', atMm: fishMm },
        { id: 'stone', kind: 'figure', name: 'Stone', shape: { type: 'box', lengthMm: 20, widthMm: 10, heightMm: 8 }, baseMm: 5, massG: 9, hold: 'fixed' },
      ],
    }));
    const words = lay(made).pages.filter(({ kind }) => kind === 'section').map(wordsOf).join(' ');
    // Apparent depth d/n, by hand: 16/1.55, 40/1.55 and so on.
    for (const seen of [far, stone, 'Fish 10.3']) expect(words).toContain(seen);
  });
});

describe('the figure table', () => {
  it('tells how a figure is turned', () => {
    const figure = (turnDeg: readonly number[]) => ({ id: 'f', kind: 'figure', name: 'Fish', shape: { type: 'box', lengthMm: 20, widthMm: 10, heightMm: 8 }, baseMm: 5, massG: 9, hold: 'fixed', turnDeg });
    const words = (turnDeg: readonly number[]) => lay(make(sceneDocument({ placements: [figure(turnDeg)] }))).pages.filter(({ kind }) => kind === 'figures').map(wordsOf).join(' ');
    expect(words([0, 360, 0])).not.toContain('turned');
    // By hand: 20° about x brings what is up, (0, 0, 1), to y = −sin 20°, nearer the front; 30° about z brings what is right, (1, 0, 0), to y = sin 30°, its left.
    expect(words([20, -5, 30])).toContain('; tilted 20° forward and 5° left, turned 30° left');
    expect(words([-20, 5, 350])).toContain('; tilted 20° back and 5° right, turned 10° right');
  });
});

describe('the calendar', () => {
  it('has every step of the plan', () => {
    const made = make(sceneDocument());
    const words = lay(made).pages.filter(({ kind }) => kind === 'calendar').map(wordsOf).join(' ');
    for (const { text } of made.plan.steps) expect(words).toContain(text.replaceAll('\u00a0', ' '));
  });
});

describe('a piece without a first day', () => {
  const made = HARD_SCENES['a finish of every kind, without a first day']();
  const { pages } = lay(made);

  it('has its days counted on every page, none named', () => {
    const [note] = made.plan.findings.filter(({ code }) => code === 'start-assumed');
    const words = pages.map((page) => wordsOf(page).replaceAll(note.message, ''));
    for (const text of words) expect(text).not.toMatch(/\b(Mon|Tue|Wed|Thu|Fri|Sat|Sun|Jan|Feb)\b/);
    const first = made.plan.pours[0].starts;
    expect(first.slice(0, 8)).toBe('2000-01-');
    // The first day is a 3rd.
    expect(words[0]).toContain(`from day ${Number(first.slice(8, 10)) - 2}, ${first.slice(11)} to day `);
  });

  it('says so on the cover, in its head and beside its time; no head is cut', () => {
    expect(textsOf(pages[0]).map(({ text }) => text)).toContain('no first day set');
    expect(wordsOf(pages[0])).toContain('; no first day set');
    for (const page of pages) expect(textsOf(page).filter(({ y, text }) => y < 12 && text.endsWith('…')), page.title).toEqual([]);
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
