/** Templates as other programs read them: to size on paper, black and white, marks on marks, parts that make the whole. */
import { describe, expect, it } from 'vitest';
import { PAPER_MM } from '../../src/core/sheet/document.ts';
import type { TemplateFile } from '../../src/core/sheet/template-layout.ts';
import { sheetPdf } from '../../src/files/pdf.ts';
import { sheetSvg } from '../../src/files/sheet-svg.ts';
import { fonts, templatesOf } from '../core/sheet/made-templates.ts';
import { readPdf } from './pdf-lines.ts';
import type { ReadPage } from './pdf-lines.ts';

/** mm. What the file is to be right to; its numbers are rounded at 0.002 mm. */
const DRAWN_MM = 0.01;
const near = (a: number, b: number): boolean => Math.abs(a - b) < DRAWN_MM;
const pagesOf = async ({ pages }: TemplateFile): Promise<ReadPage[]> => readPdf(await sheetPdf(pages, fonts));

/** Lengths of straight lines of two points along x or y. */
function lengths({ paths }: ReadPage, along: 0 | 1): number[] {
  return paths.filter((path) => path.length === 2 && near(path[0][1 - along], path[1][1 - along])).map(([a, b]) => Math.abs(a[along] - b[along]));
}

/** Middles of crosses of two lines of `lengthMm`. */
function crosses({ paths }: ReadPage, [wide, high]: readonly [number, number]): [number, number][] {
  const middle = (path: ReadPage['paths'][number]): [number, number] => [(path[0][0] + path[1][0]) / 2, (path[0][1] + path[1][1]) / 2];
  const level = paths.filter((path) => path.length === 2 && near(path[0][1], path[1][1]) && near(Math.abs(path[0][0] - path[1][0]), wide)).map(middle);
  const upright = paths.filter((path) => path.length === 2 && near(path[0][0], path[1][0]) && near(Math.abs(path[0][1] - path[1][1]), high)).map(middle);
  return level.filter(([x, y]) => upright.some(([u, v]) => near(u, x) && near(v, y)));
}

const spanOf = (points: readonly (readonly [number, number])[], axis: 0 | 1): number => Math.max(...points.map((point) => point[axis])) - Math.min(...points.map((point) => point[axis]));

describe('a template as PDF, read by pdfjs-dist', async () => {
  const [file, stencils] = templatesOf({});
  const [page, ...others] = await pagesOf(file);

  it('is one page of A4 with bars of 100 mm both ways, marks and wall to size', () => {
    expect(others).toEqual([]);
    // ISO 216.
    expect([page.widthMm, page.heightMm].map((mm) => Math.round(mm * 100) / 100)).toEqual([297, 210]);
    expect(lengths(page, 0).filter((mm) => near(mm, 100))).toHaveLength(1);
    expect(lengths(page, 1).filter((mm) => near(mm, 100))).toHaveLength(1);
    const marks = crosses(page, [6, 6]);
    expect(marks).toHaveLength(4);
    // 6 mm out from an inside of 200 × 120.
    expect(near(spanOf(marks, 0), 212) && near(spanOf(marks, 1), 132)).toBe(true);
    expect(page.paths.some((path) => path.length === 5 && near(spanOf(path, 0), 200) && near(spanOf(path, 1), 120))).toBe(true);
  });

  it('draws the art at its width: legs of 36 and 24 mm', () => {
    // 0.3 and 0.2 of 120 mm.
    expect(page.paths.some((path) => path.length === 4 && near(spanOf(path, 0), 36) && near(spanOf(path, 1), 24))).toBe(true);
  });

  it('says what it is', () => {
    for (const words of ['Lily shadows', 'plane 1 of 1', '20 up, 35 deep', 'before pour 2', 'back of the mold', 'page 1 of 1', 'both bars must measure 100 mm']) expect(page.text).toContain(words);
    expect(page.text).not.toMatch(/[Mm]irrored|DO NOT POUR|row 1/);
  });

  it('is black, white and gray lines, no picture', async () => {
    for (const read of [page, ...(await pagesOf(stencils))]) {
      expect(read.pictures).toBe(0);
      expect(read.colors.length).toBeGreaterThan(10);
      for (const color of new Set(read.colors)) expect(color).toMatch(/^(#(..)\2\2|(\d+),\3,\3)$/);
    }
  });

  it.each([['a4', 99.6, 100.2], ['letter', 90, 110]] as const)('on %s, a printer whose bars measured %d × %d mm prints them true', async (paper, xMm, yMm) => {
    const [read] = await pagesOf(templatesOf({}, { paper, bars: { xMm, yMm } })[0]);
    const [long, short] = PAPER_MM[paper];
    expect([read.widthMm, read.heightMm].map((mm) => Math.round(mm * 100) / 100)).toEqual([long, short]);
    const [sx, sy] = [xMm / 100, yMm / 100];
    expect(lengths(read, 0).some((mm) => near(mm * sx, 100))).toBe(true);
    expect(lengths(read, 1).some((mm) => near(mm * sy, 100))).toBe(true);
    const marks = crosses(read, [6 / sx, 6 / sy]);
    expect(near(spanOf(marks, 0) * sx, 212)).toBe(true);
    expect(read.text).toContain(`${xMm} mm across and ${yMm} mm up`);
    // Margins of 10 mm, 15 below (what printers leave white; common practice, no source).
    for (const [x, y] of read.paths.flat()) expect(x > 9.7 && x < long - 9.7 && y > 9.7 && y < short - 14.7, `${x}, ${y}`).toBe(true);
  });
});

describe('the wall at a plane’s height', () => {
  it.each([[0, 8], [20, 8], [55, 8], [20, 0]])('at %d mm with %d° of draft is wider by z·tan(draft) on each side', async (atMm, draftDeg) => {
    const mold = { shape: 'box', lengthMm: 150, widthMm: 100, heightMm: 60, draftDeg, cornerRadiusMm: 12 };
    const { paths } = (await pagesOf(templatesOf({ mold, placements: [{ id: 'p1', kind: 'plane', name: 'Ground', atMm }] })[0]))[0];
    const more = 2 * atMm * Math.tan((draftDeg * Math.PI) / 180);
    const wall = paths.filter((path) => path.length > 40 && spanOf(path, 0) > 140);
    expect(wall).toHaveLength(1);
    expect(near(spanOf(wall[0], 0), 150 + more) && near(spanOf(wall[0], 1), 100 + more)).toBe(true);
    // Corners keep their radius: each point is on a straight side or 12 mm from its corner's middle.
    const [cx, cy] = [0, 1].map((axis) => (Math.max(...wall[0].map((point) => point[axis])) + Math.min(...wall[0].map((point) => point[axis]))) / 2);
    for (const [x, y] of wall[0]) {
      const [u, v] = [Math.max(0, Math.abs(x - cx) - (75 + more / 2 - 12)), Math.max(0, Math.abs(y - cy) - (50 + more / 2 - 12))];
      expect(near(Math.hypot(u, v), 12), `${x}, ${y}`).toBe(true);
    }
  });
});

describe('a template in parts', async () => {
  const mold = { shape: 'box', lengthMm: 420, widthMm: 300, heightMm: 60 };
  const bars = { xMm: 99, yMm: 101 };
  const [file] = templatesOf({ mold }, { bars });
  const read = await pagesOf(file);
  const parts = file.pages.pages.map(({ part }) => part!);
  /** Where a point of a page lies in the whole, by what the layout says of the page. */
  const inWhole = (page: number, [x, y]: readonly [number, number]): [number, number] => {
    const { originXMm, originYMm, scale } = file.pages;
    const { window, atMm } = parts[page];
    return [(x - originXMm) / scale![0] - atMm[0] + window.x0, (y - originYMm) / scale![1] - atMm[1] + window.y0];
  };

  it('prints register marks that meet: each of a seam on both of its pages, at one place of the whole', () => {
    expect(read.length).toBe(parts.length);
    const seen = read.map((page, i) => crosses(page, [6 * file.pages.scale![0], 6 * file.pages.scale![1]]).map((mark) => inWhole(i, mark)).filter(([x, y]) => x > parts[i].window.x0 && x < parts[i].window.x1 && y > parts[i].window.y0 && y < parts[i].window.y1));
    for (const [i, a] of parts.entries()) {
      for (const [k, b] of parts.entries()) {
        const beside = (a.row === b.row && b.column === a.column + 1) || (a.column === b.column && b.row === a.row + 1);
        if (!beside) continue;
        const shared = seen[i].filter(([x, y]) => seen[k].some(([u, v]) => near(x, u) && near(y, v)));
        expect(shared.length, `row ${a.row}, column ${a.column} and row ${b.row}, column ${b.column}`).toBeGreaterThanOrEqual(2);
      }
    }
  });

  it('lays its pages together to the whole: every point of the wall is printed, at its place', () => {
    const wall = read.map((page, i) => page.paths.filter((path) => path.length === 5).map((path) => path.map((point) => inWhole(i, point))).find((path) => near(spanOf(path, 0), 420)));
    for (let along = 0; along <= 420; along += 3.5) {
      for (const y of [-150, 150]) {
        const pages = parts.map(({ window }, i) => ({ window, i })).filter(({ window }) => along - 210 >= window.x0 && along - 210 <= window.x1 && y >= window.y0 && y <= window.y1);
        expect(pages.length).toBeGreaterThan(0);
        for (const { i } of pages) expect(wall[i] && near(Math.max(...wall[i].map((point) => point[1])), 150) && near(Math.min(...wall[i].map((point) => point[0])), -210)).toBe(true);
      }
    }
  });

  it('says which part each page is, has bars on each, and how to join them', () => {
    read.forEach((page, i) => {
      expect(page.text).toContain(`row ${parts[i].row}, column ${parts[i].column}`);
      expect(page.text).toContain(`page ${i + 1} of ${read.length}`);
      expect(page.text).toContain('circle on circle');
      expect(lengths(page, 0).some((mm) => near(mm * 0.99, 100))).toBe(true);
      expect(lengths(page, 1).some((mm) => near(mm * 1.01, 100))).toBe(true);
    });
  });
});

describe('a template as SVG', () => {
  it('has its size in mm and one unit of it a mm, the bars 100 of them, black on white, and no correction', () => {
    for (const file of templatesOf({}, { bars: { xMm: 95, yMm: 105 } })) {
      const [document] = file.whole;
      const svg = sheetSvg(document, document.pages[0]);
      const [, width, height, w, h] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!;
      expect([width, height]).toEqual([w, h]);
      const lines = [...svg.matchAll(/ d="M([\d.-]+) ([\d.-]+)L([\d.-]+) ([\d.-]+)"/g)].map((found) => found.slice(1).map(Number));
      expect(lines.some(([x0, y0, x1, y1]) => y0 === y1 && near(x1 - x0, 100))).toBe(true);
      expect(lines.some(([x0, y0, x1, y1]) => x0 === x1 && near(Math.abs(y1 - y0), 100))).toBe(true);
      // A stencil is black lines only: nothing breaks what is to be cut.
      expect(new Set(svg.match(/#[0-9a-f]{3,6}\b/g))).toEqual(new Set(file.stem === 'stencils' ? ['#000'] : ['#000', '#fff']));
    }
  });

  it('carries names as text, whatever stands in them', () => {
    const name = '</title><script>attacked()</script>" onload="attacked()" & ]]> \u0007\ud800';
    const [{ whole: [document] }] = templatesOf({ name, placements: [{ id: 'p1', kind: 'plane', name, atMm: 20 }] });
    const svg = sheetSvg(document, document.pages[0]);
    expect(svg).not.toMatch(/<script|<\/title>.*<\/title>|[^\\]" onload="|\u0007/);
    expect(svg.match(/<[a-zA-Z]+/g)!.every((tag) => ['<svg', '<title', '<g', '<path', '<text', '<clipPath'].includes(tag))).toBe(true);
  });
});

describe('a halt', () => {
  it('stands with its reason on the pages it concerns and on no others', async () => {
    // A top pour of 1 mm, under 0.6 of the least depth of 2 (design: too thin).
    const files = templatesOf({ placements: [{ id: 'p1', kind: 'plane', name: 'Ground', atMm: 20 }, { id: 'p2', kind: 'plane', name: 'Ripples', atMm: 54 }] });
    const texts = await Promise.all(files.map(async (file) => (await pagesOf(file)).map(({ text }) => text)));
    for (const text of [...texts[1], ...texts[2]]) expect(text).toMatch(/DO NOT POUR.*1 mm/);
    for (const text of texts[0]) expect(text).not.toContain('DO NOT POUR');
  });
});
