/**
 * The pours, and after them the flood coats of the finish, as a table for a spreadsheet: RFC 4180, one row each, units
 * in the headings, times as `YYYY-MM-DDTHH:MM`. What is halted says so and gives no amounts to mix.
 */
import { doNotPour } from '../core/plan/halts.ts';
import { faceName } from '../core/plan/finishing/finish-lines.ts';
import type { FloodCoat, Plan, Pour } from '../core/plan/plan.ts';
import type { Scene } from '../core/scene/scene.ts';

type Cell = string | number | null;
/** A column: its heading and what a pour has there. Amounts are left out of a halted pour. */
interface Column {
  readonly title: string;
  readonly of: (pour: Pour) => Cell;
  /** Of a flood coat, where it has one; left out: none. */
  readonly coat?: (coat: FloodCoat) => Cell;
  readonly amount?: boolean;
}

/** Digits after the point; a thousandth of a mm, mL or g is far below what a bench can tell. */
const DIGITS = 3;

/** The file's text, with a heading row. */
export function poursCsv(scene: Pick<Scene, 'formulas'>, plan: Plan): string {
  return csv([headingsOf(scene, plan), ...rowsOf(scene, plan)]);
}

/** Several pieces in one table: whose row it is comes first, and last the number of a pour at the bench whose cups are shared. */
export function poursOfPiecesCsv(pieces: readonly { readonly scene: Pick<Scene, 'formulas' | 'name'>; readonly plan: Plan }[]): string {
  const [first] = pieces;
  const rows = pieces.flatMap(({ scene, plan }) => rowsOf(scene, plan).map((row, i) => [scene.name, ...row, plan.pours[i]?.shared?.pouring ?? null]));
  return csv([['scene', ...headingsOf(first.scene, first.plan), 'cups shared in pour at the bench'], ...rows]);
}

function headingsOf(scene: Pick<Scene, 'formulas'>, plan: Plan): Cell[] {
  return columnsFor(scene, plan).map(({ title }) => title);
}

function rowsOf(scene: Pick<Scene, 'formulas'>, plan: Plan): Cell[][] {
  const columns = columnsFor(scene, plan);
  const rows = plan.pours.map((pour) => {
    const halted = doNotPour(plan.findings, pour.index) !== null;
    return columns.map(({ of, amount }) => (amount && halted ? null : of(pour)));
  });
  const { coats, coatHalt } = plan.finishing ?? { coats: [], coatHalt: null };
  const coatRows = coats.map((made) => columns.map(({ coat, amount }) => (!coat || (amount && coatHalt !== null) ? null : coat(made))));
  return [...rows, ...coatRows];
}

/** RFC 4180: CRLF, quotes where they are needed and doubled inside. */
export function csv(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(written).join(',')}\r\n`).join('');
}

function columnsFor({ formulas }: Pick<Scene, 'formulas'>, { findings, finishing }: Plan): Column[] {
  const amount = true;
  /** What pours and coats have alike. */
  const both = (title: string, of: (mixed: Pour | FloodCoat) => Cell, isAmount = false): Column => ({ title, of, coat: of, amount: isAmount });
  return [
    { title: 'pour', of: ({ index }) => index, coat: (coat) => `flood coat, ${faceName(coat).replace('\u00a0', ' ')}` },
    { title: 'do not pour', of: ({ index }) => doNotPour(findings, index), coat: () => finishing?.coatHalt ?? null },
    { title: 'layer', of: ({ layer }) => layer },
    { title: 'from (mm)', of: ({ fromMm }) => fromMm },
    { title: 'to (mm)', of: ({ toMm }) => toMm },
    { title: 'depth (mm)', of: ({ depthMm }) => depthMm, coat: ({ thicknessMm }) => thicknessMm },
    both('formula', ({ formula }) => formulas.get(formula)?.name ?? formula),
    { title: 'gross (mL)', of: ({ grossMl }) => grossMl },
    { title: 'displaced (mL)', of: ({ displacedMl }) => displacedMl },
    both('net (mL)', ({ netMl }) => netMl),
    both('mix (mL)', ({ mixMl }) => mixMl, amount),
    both('mix (g)', ({ mixG }) => mixG, amount),
    both('part A, resin (mL)', ({ partA }) => partA.ml, amount),
    both('part A, resin (g)', ({ partA }) => partA.g, amount),
    both('part B, hardener (mL)', ({ partB }) => partB.ml, amount),
    both('part B, hardener (g)', ({ partB }) => partB.g, amount),
    both('cups', ({ batches }) => batches.length, amount),
    both('scale after part A, each cup (g)', ({ batches }) => batches[0].scaleStopsG[0], amount),
    both('scale after part B, each cup (g)', ({ batches }) => batches[0].scaleStopsG[1] ?? null, amount),
    both('dye, each cup (g)', ({ batches }) => batches[0].tintG, amount),
    both('usable, each cup (min)', ({ batches }) => Math.floor(batches[0].usableMin), amount),
    { title: 'fill mark from rim (mm)', of: ({ fillMarkFromRimMm }) => fillMarkFromRimMm, amount },
    both('starts', ({ starts }) => starts),
    both('ends', ({ ends }) => ends),
    both('tacky from', ({ opens }) => opens),
    both('tacky until', ({ closes }) => closes),
    both('can be scuffed', ({ scuffable }) => scuffable),
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
