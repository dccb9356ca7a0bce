/** Every step of the plan in order, with when, until when, and a box to tick. */
import { workName } from '../plan/finishing/finish-lines.ts';
import type { Step } from '../plan/plan.ts';
import { clockOf, dayAndTime } from '../units/when.ts';
import type { SheetContext } from './context.ts';
import { headOf } from './context.ts';
import type { TableColumn } from './flow.ts';
import { columnsOn, flowTable, tableRow } from './flow.ts';
import type { Words } from './pen.ts';

const COLUMNS: readonly TableColumn[] = [
  { title: '', widthMm: 8 },
  { title: 'from', widthMm: 33 },
  { title: 'until', widthMm: 33 },
  { title: 'what', widthMm: 30 },
  { title: 'how', widthMm: 155 },
];

export function layCalendarPages(sheet: SheetContext): void {
  const { plan, lettering } = sheet;
  const open = () => sheet.book.open({ kind: 'calendar', title: 'Calendar', subtitle: 'step by step', head: headOf(sheet, `done ${dayAndTime(plan.ready ?? plan.finish)}`), halts: sheet.halts });
  const rows = plan.steps.map((step) => tableRow(COLUMNS, [{ ticks: [''] }, [dayAndTime(step.from)], [until(step)], what(step), how(sheet, step)], lettering));
  flowTable(COLUMNS, rows, lettering, columnsOn(open, [0]));
}

function until({ from, to }: Step): string {
  if (from === to) return '';
  return from.slice(0, 10) === to.slice(0, 10) ? clockOf(to) : dayAndTime(to);
}

const WORDS: Readonly<Record<Step['kind'], string>> = {
  prepare: 'get ready', place: 'set in place', pour: 'pour', wait: 'wait', scuff: 'scuff', move: 'into the box', paint: 'paint', dry: 'let dry', demold: 'out of the mold', finish: 'finish',
};

function what({ kind, pour, finishing }: Step): Words[] {
  if (finishing) return [workName(finishing)];
  if (kind === 'pour' && pour !== null) return [{ text: `pour ${pour}`, face: 'bold' }];
  if (kind === 'scuff' && pour !== null) return [`scuff pour ${pour}`];
  return [WORDS[kind]];
}

function how(sheet: SheetContext, step: Step): Words[] {
  const concerned = step.pour !== null && sheet.haltedPours.has(step.pour) && (step.kind === 'pour' || step.kind === 'place');
  const why = concerned ? sheet.halts.find(({ pours }) => pours === undefined || pours.includes(step.pour!))?.message : undefined;
  return concerned ? [{ text: 'DO NOT POUR. ', face: 'bold' }, why ?? ''] : [step.text];
}
