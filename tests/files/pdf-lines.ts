/** What a page of a PDF strokes and fills, as another library reads it: in mm from the paper's top left, matrices applied. */
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

/** Exact: 72 points to the inch of 25.4 mm (ISO 32000-1 §8.3.2.3). */
const MM_PER_POINT = 25.4 / 72;

export interface ReadPage {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Straight runs and closed rings; curves are not drawn by us. */
  readonly paths: readonly (readonly (readonly [number, number])[])[];
  readonly text: string;
  /** Every color set, as pdf.js gives it. */
  readonly colors: readonly string[];
  readonly pictures: number;
  /** Where the stored top left, top right and bottom left of each picture are printed. */
  readonly pictureCorners: readonly (readonly (readonly [number, number])[])[];
}

export async function readPdf(bytes: Uint8Array): Promise<ReadPage[]> {
  const pdf = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  return Promise.all(Array.from({ length: pdf.numPages }, async (_, i): Promise<ReadPage> => {
    const page = await pdf.getPage(i + 1);
    const [x0, y0, x1, y1] = page.view;
    const { fnArray, argsArray } = await page.getOperatorList();
    let matrix = [1, 0, 0, 1, 0, 0];
    const kept: number[][] = [];
    const paths: [number, number][][] = [];
    const colors: string[] = [];
    const pictureCorners: [number, number][][] = [];
    let pictures = 0;
    const at = (x: number, y: number): [number, number] => {
      const [a, b, c, d, e, f] = matrix;
      return [(a * x + c * y + e - x0) * MM_PER_POINT, (y1 - y0 - (b * x + d * y + f)) * MM_PER_POINT];
    };
    fnArray.forEach((fn, k) => {
      const args = argsArray[k];
      if (fn === OPS.save) kept.push(matrix);
      else if (fn === OPS.restore) matrix = kept.pop()!;
      else if (fn === OPS.transform) {
        const [a, b, c, d, e, f] = args as number[];
        const [p, q, r, s, t, u] = matrix;
        matrix = [p * a + r * b, q * a + s * b, p * c + r * d, q * c + s * d, p * e + r * f + t, q * e + s * f + u];
      } else if (fn === OPS.setStrokeRGBColor || fn === OPS.setFillRGBColor) colors.push(String(args[0]));
      else if (fn === OPS.paintImageXObject || fn === OPS.paintInlineImageXObject || fn === OPS.paintImageMaskXObject) {
        pictures++;
        // A PDF draws a picture on the unit square, its first row at the top (ISO 32000-1 §8.9.5).
        pictureCorners.push([[0, 1], [1, 1], [0, 0]].map(([x, y]) => at(x, y)));
      }
      else if (fn === OPS.constructPath) {
        const data = args[1][0] as Float32Array | null;
        if (!data) return;
        // 0 moves, 1 draws a line, 2 a cubic curve (three points), 3 a quadratic one (two), 4 closes.
        let path: [number, number][] = [];
        for (let j = 0; j < data.length; ) {
          const kind = data[j++];
          if (kind === 0) paths.push((path = [at(data[j++], data[j++])]));
          else if (kind === 1) path.push(at(data[j++], data[j++]));
          else if (kind === 4) path.push(path[0]);
          else j += kind === 2 ? 6 : 4;
        }
      }
    });
    const text = (await page.getTextContent()).items.map((item) => ('str' in item ? item.str : '')).join(' ').replaceAll(/\s+/g, ' ');
    return { widthMm: (x1 - x0) * MM_PER_POINT, heightMm: (y1 - y0) * MM_PER_POINT, paths, text, colors, pictures, pictureCorners };
  }));
}
