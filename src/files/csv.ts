/**
 * The pours as a table for a spreadsheet: RFC 4180, one row a pour, units in the headings, times as
 * `YYYY-MM-DDTHH:MM`. A pour that is halted says so and gives no amounts to mix.
 */
import { doNotPour } from '../core/plan/halts.ts';
import type { Plan, Pour } from '../core/plan/plan.ts';
import type { Scene } from '../core/scene/scene.ts';

type Cell = string | number | null;
/** A column: its heading and what a pour has there. Amounts are left out of a halted pour. */
interface Column {
  readonly title: string;
  readonly of: (pour: Pour) => Cell;
  readonly amount?: boolean;
}

/** Digits after the point; a thousandth of a mm, mL or g is far below what a bench can tell. */
const DIGITS = 3;

/** The file's text, with a heading row. */
export function poursCsv(scene: Pick<Scene, 'formulas'>, plan: Plan): string {
  const columns = columnsFor(scene, plan);
  const rows = plan.pours.map((pour) => {
    const halted = doNotPour(plan.findings, pour.index) !== null;
    return columns.map(({ of, amount }) => (amount && halted ? null : of(pour)));
  });
  return csv([columns.map(({ title }) => title), ...rows]);
}

/** RFC 4180: CRLF, quotes where they are needed and doubled inside. */
export function csv(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(written).join(',')}\r\n`).join('');
}

function columnsFor({ formulas }: Pick<Scene, 'formulas'>, { findings }: Plan): Column[] {
  const amount = true;
  return [
    { title: 'pour', of: ({ index }) => index },
    { title: 'do not pour', of: ({ index }) => doNotPour(findings, index) },
    { title: 'layer', of: ({ layer }) => layer },
    { title: 'from (mm)', of: ({ fromMm }) => fromMm },
    { title: 'to (mm)', of: ({ toMm }) => toMm },
    { title: 'depth (mm)', of: ({ depthMm }) => depthMm },
    { title: 'formula', of: ({ formula }) => formulas.get(formula)?.name ?? formula },
    { title: 'gross (mL)', of: ({ grossMl }) => grossMl },
    { title: 'displaced (mL)', of: ({ displacedMl }) => displacedMl },
    { title: 'net (mL)', of: ({ netMl }) => netMl },
    { title: 'mix (mL)', of: ({ mixMl }) => mixMl, amount },
    { title: 'mix (g)', of: ({ mixG }) => mixG, amount },
    { title: 'part A, resin (mL)', of: ({ partA }) => partA.ml, amount },
    { title: 'part A, resin (g)', of: ({ partA }) => partA.g, amount },
    { title: 'part B, hardener (mL)', of: ({ partB }) => partB.ml, amount },
    { title: 'part B, hardener (g)', of: ({ partB }) => partB.g, amount },
    { title: 'cups', of: ({ batches }) => batches.length, amount },
    { title: 'scale after part A, each cup (g)', of: ({ batches }) => batches[0].scaleStopsG[0], amount },
    { title: 'scale after part B, each cup (g)', of: ({ batches }) => batches[0].scaleStopsG[1] ?? null, amount },
    { title: 'dye, each cup (g)', of: ({ batches }) => batches[0].tintG, amount },
    { title: 'usable, each cup (min)', of: ({ batches }) => Math.floor(batches[0].usableMin), amount },
    { title: 'fill mark from rim (mm)', of: ({ fillMarkFromRimMm }) => fillMarkFromRimMm, amount },
    { title: 'starts', of: ({ starts }) => starts },
    { title: 'ends', of: ({ ends }) => ends },
    { title: 'tacky from', of: ({ opens }) => opens },
    { title: 'tacky until', of: ({ closes }) => closes },
    { title: 'can be scuffed', of: ({ scuffable }) => scuffable },
    { title: 'can be painted', of: ({ paintable }) => paintable },
    { title: 'out of the mold', of: ({ demold }) => demold },
    { title: 'joins the pour below', of: ({ route }) => (route === null ? null : route === 'wet-on-tacky' ? 'onto the tacky surface' : 'after cure, scuff and wipe') },
    { title: 'why', of: ({ why }) => why },
  ];
}

function written(cell: Cell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') return String(Number(cell.toFixed(DIGITS)));
  const safe = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(safe) ? `"${safe.replace(/"/g, '""')}"` : safe;
}
