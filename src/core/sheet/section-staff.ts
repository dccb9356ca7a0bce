/** The staff of heights inside a section's wall, and the depths outside it. */
import { plain } from '../units/format.ts';
import { lengthNumber } from '../units/in-units.ts';
import { MM_PER_INCH } from '../units/quantity.ts';
import { depthAt } from '../scene/depth.ts';
import type { Pen } from './pen.ts';
import { LINE, TICK_PT } from './pen.ts';
import type { Box, Ring } from './polygon.ts';
import type { SectionTick } from './section.ts';
import { halfWidthAt } from './section.ts';
import type { SectionLook } from './section-look.ts';

/** mm. Width of the staff of 5 mm blocks inside the wall. */
const STAFF_MM = 2.2;

/** Blocks of 5 mm inside the left wall with heights every 10 mm, or every half inch beside them; coarser on a small scale. */
export function drawStaff(pen: Pen, look: SectionLook): void {
  const { section, view, words } = look;
  const block = view.scale >= 0.5 ? 5 : labelStep(view.scale) / 2;
  for (let z = 0, dark = true; z < section.heightMm; z += block, dark = !dark) {
    const top = Math.min(z + block, section.heightMm);
    const [x0, x1] = [view.pageX(-halfWidthAt(section, z)), view.pageX(-halfWidthAt(section, top))];
    const ring: Ring = [[x0, view.pageY(z)], [x0 + STAFF_MM, view.pageY(z)], [x1 + STAFF_MM, view.pageY(top)], [x1, view.pageY(top)]];
    pen.shape([ring], { strokeMm: LINE.hair, fill: dark ? 'ink' : 'paper' });
  }
  for (const { atMm, value, rank } of words.unit === 'in' ? inchTicks(section.heightMm, (mm) => mm) : section.heightTicks) {
    const x = view.pageX(-halfWidthAt(section, atMm)) + STAFF_MM;
    if (rank !== 'minor' || view.scale >= 0.9) pen.line([[x, view.pageY(atMm)], [x + (rank === 'minor' ? 0.8 : 1.5), view.pageY(atMm)]], LINE.hair);
    if (isWritten(value, look) && atMm < section.heightMm - 2 / view.scale) {
      const y = value === 0 ? view.pageY(0) - 0.7 : view.pageY(atMm) + 1.1;
      pen.text(x + 2, y, written(value, look), { pt: TICK_PT, halo: true });
    }
  }
}

/** Ticks and depths outside the left wall. */
export function drawDepths(pen: Pen, look: SectionLook): void {
  const { section, view, words } = look;
  for (const { atMm, value, rank } of words.unit === 'in' ? inchTicks(section.fillMm, (depth) => depthAt(section, depth)) : section.depthTicks) {
    const x = view.pageX(-halfWidthAt(section, atMm)) - view.wallMm;
    const y = view.pageY(atMm);
    const long = rank === 'ten' ? 2.2 : rank === 'five' ? 1.5 : 0.9;
    if (rank !== 'minor' || view.scale >= 0.9) pen.line([[x - long, y], [x, y]], LINE.hair);
    if (isWritten(value, look)) pen.text(x - 3, y + 1.1, written(value, look), { pt: TICK_PT, align: 'right' });
  }
}

/** What the staff and its numbers take up. */
export const staffBox = ({ section, view }: SectionLook): Box => {
  const x = Math.min(view.pageX(-section.halfFloorMm), view.pageX(-section.halfRimMm));
  return { x0: x, x1: view.pageX(-section.halfFloorMm) + STAFF_MM + 7, y0: view.top, y1: view.bottom };
};

/** A tick every quarter inch; values in mm. `atMm` turns a height or a depth into a height; it is its own inverse. */
function inchTicks(toMm: number, atMm: (mm: number) => number): SectionTick[] {
  const count = Math.floor((4 * toMm) / MM_PER_INCH + 1e-9);
  return Array.from({ length: count + 1 }, (_, quarter) => {
    const value = (quarter * MM_PER_INCH) / 4;
    return { atMm: atMm(value), value, rank: quarter % 4 === 0 ? 'ten' : quarter % 2 === 0 ? 'five' : 'minor' };
  });
}

function isWritten(value: number, { view, words }: SectionLook): boolean {
  const step = words.unit === 'in' ? inchStep(view.scale) : labelStep(view.scale);
  const steps = value / step;
  return Math.abs(steps - Math.round(steps)) < 1e-9;
}

const written = (value: number, { words }: SectionLook): string => (words.unit === 'in' ? lengthNumber(value, 'in') : plain(value));

/** The same in halves of an inch and up, mm. */
function inchStep(scale: number): number {
  return ([0.5, 1, 2, 4, 8, 20, 40].find((inch) => inch * MM_PER_INCH * scale >= 4.5) ?? 200) * MM_PER_INCH;
}

/** mm of height between two written ticks: at least 4.5 mm on paper. */
function labelStep(scale: number): number {
  return [10, 20, 50, 100, 200, 500, 1000].find((step) => step * scale >= 4.5) ?? 5000;
}
