/** What goes into the water, one row each: weight, floating, how it is held, where, what to prepare. */
import type { PlacementResult } from '../plan/plan.ts';
import type { SolidPlacement } from '../scene/scene.ts';
import { listed, plain } from '../units/format.ts';
import type { SheetContext } from './context.ts';
import { headOf, middleOf, nameOf, solidsOf, upAndDeep } from './context.ts';
import type { Cell, TableColumn } from './flow.ts';
import { columnsOn, flowTable, tableRow } from './flow.ts';

const COLUMNS: readonly TableColumn[] = [
  { title: 'figure or bed', widthMm: 34 },
  { title: 'material', widthMm: 25 },
  { title: 'volume', widthMm: 19, align: 'right' },
  { title: 'mass', widthMm: 18, align: 'right' },
  { title: 'floats?', widthMm: 36 },
  { title: 'held, touching', widthMm: 29 },
  { title: 'base to top', widthMm: 25 },
  { title: 'middle, turn', widthMm: 31 },
  { title: 'done', widthMm: 42 },
];

const HOLD_WORDS = { rests: 'rests on the surface', stands: 'stands loose', fixed: 'fastened', rod: 'on a rod', thread: 'on a thread' } as const;

export function layFiguresPage(sheet: SheetContext): void {
  const solids = solidsOf(sheet);
  if (solids.length === 0) return;
  const open = () => sheet.book.open({ kind: 'figures', title: 'Figures', subtitle: 'weigh, dry, seal, wet', head: headOf(sheet, `${solids.length} to set in`), halts: sheet.halts });
  const results = new Map(sheet.plan.placements.map((result) => [result.id, result]));
  const rows = solids.map((solid) => tableRow(COLUMNS, cellsOf(sheet, solid, results.get(solid.id)), sheet.lettering));
  flowTable(COLUMNS, rows, sheet.lettering, columnsOn(open, [0]));
}

function cellsOf(sheet: SheetContext, solid: SolidPlacement, result: PlacementResult | undefined): Cell[] {
  const locking = sheet.plan.pours.find(({ locks }) => locks.includes(solid.id));
  const top = result?.topMm ?? solid.baseMm;
  const density = solid.densityGPerMl !== undefined ? `${plain(solid.densityGPerMl, 2)}\u00a0g/mL` : '';
  return [
    [{ text: solid.name, face: 'italic' }],
    [[solid.material?.replaceAll('-', ' '), density, solid.kind === 'bed' ? bedWords(solid.voidFraction) : '', solid.porous ? (solid.sealed ? 'porous, sealed' : 'porous, not sealed') : ''].filter(Boolean).join(', ')],
    [result === undefined || result.volumeMl === null ? 'unknown' : sheet.words.volume(result.volumeMl)],
    [result === undefined || result.massG === null ? 'weigh it' : `${plain(result.massG)}\u00a0g`],
    [floatWords(sheet, solid, result), ...(locking ? [{ text: ` Pour ${locking.index} locks it.`, face: 'bold' as const }] : [])],
    [`${HOLD_WORDS[solid.hold]}${touched(sheet, solid)}`, ...(sheet.plan.findings.some(({ code, subject }) => code === 'air-trap' && subject === solid.id) ? [{ text: '; air stays under it', face: 'bold' as const }] : [])],
    [`${upAndDeep(sheet, solid.baseMm)}, to ${upAndDeep(sheet, top)}`],
    [`${middleOf(sheet, solid)}${turnWords(solid.turnDeg)}`],
    { ticks: solid.kind === 'bed' ? ['dry', 'sealed', 'fastened'] : ['weighed', 'dry', 'sealed', 'pre-wet'] },
  ];
}

/** Tilts first, as a pose is made: `; tilted 20° forward, turned 12° left`. To turn left is counterclockwise from above. */
function turnWords(turnDeg: SolidPlacement['turnDeg']): string {
  const [tiltX, tiltY, turned] = turnDeg.map((deg) => Math.round(10 * (deg - 360 * Math.round(deg / 360))) / 10);
  const way = (deg: number, plus: string, minus: string): string[] => (deg === 0 ? [] : [`${plain(Math.abs(deg))}° ${deg > 0 ? plus : minus}`]);
  const tilts = [...way(tiltX, 'forward', 'back'), ...way(tiltY, 'right', 'left')].join(' and ');
  const turns = way(turned, 'left', 'right').join('');
  const words = [tilts && `tilted ${tilts}`, turns && `turned ${turns}`].filter(Boolean).join(', ');
  return words && `; ${words}`;
}

/** What it reaches into. */
function touched(sheet: SheetContext, { id }: SolidPlacement): string {
  const pairs = sheet.plan.findings.flatMap(({ code, subject }) => (code === 'figures-overlap' && subject ? [subject.split(', ')] : []));
  const others = pairs.filter((pair) => pair.includes(id)).map((pair) => nameOf(sheet, pair.find((other) => other !== id) ?? id));
  return others.length === 0 ? '' : `; touches ${listed(others)}`;
}

const bedWords = (voidFraction: number): string => (voidFraction > 0 ? `bed, ${plain(voidFraction * 100, 0)}\u00a0% voids drink resin` : 'solid bed');

function floatWords({ words }: SheetContext, solid: SolidPlacement, result: PlacementResult | undefined): string {
  if (!result) return '';
  if (solid.kind === 'bed') return 'no';
  if (result.liftG === null) return 'unknown: weigh it';
  if (!result.floats) return result.liftG > 0 ? `light, but held ${HOLD_WORDS[solid.hold]}` : 'no, it stays down';
  const lock = result.safeLockMm !== null ? ` lock at most ${words.limit(result.safeLockMm)} deep` : '';
  const steel = result.steelG !== null ? `${lock ? ', or' : ''} add ${plain(result.steelG)}\u00a0g of steel` : '';
  return `yes, rises with ${plain(result.liftG)}\u00a0g;${lock}${steel}.`;
}

