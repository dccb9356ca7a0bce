/** The order at the bench of pieces that are poured together, with the cups they share: the first page before their sheets. */
import type { Plan } from '../plan/plan.ts';
import { isHalted, type BenchTurn, type Together } from '../plan/runs/together-plan.ts';
import { cupWords, shareWords, turnWords } from '../plan/runs/together-text.ts';
import type { Scene } from '../scene/scene.ts';
import { clockOf, dayAndTime } from '../units/when.ts';
import { inUnits, type ChosenUnits } from '../units/in-units.ts';
import type { SheetPage } from './document.ts';
import { columnsOn, flowTable, tableRow, type TableColumn } from './flow.ts';
import { createBook } from './frame.ts';
import type { Lettering, Words } from './pen.ts';
import { METRIC, namesIn } from './sheet-words.ts';

const COLUMNS: readonly TableColumn[] = [
  { title: '', widthMm: 8 },
  { title: 'from', widthMm: 33 },
  { title: 'until', widthMm: 33 },
  { title: 'what', widthMm: 75 },
  { title: 'how', widthMm: 110 },
];

export function layTogetherPages(pieces: readonly { readonly scene: Scene; readonly plan: Plan }[], together: Together, { units = METRIC, ...lettering }: Lettering & { readonly units?: ChosenUnits }): SheetPage[] {
  const said = (text: string): string => inUnits(text, units, { keep: pieces.flatMap(({ scene }) => namesIn(scene)), plan: true });
  const book = createBook(lettering, 'Poured together');
  const plans = pieces.map(({ plan }) => plan);
  const halts = plans.flatMap(({ findings }) => findings.filter(({ severity }) => severity === 'halt'));
  const open = () => book.open({ kind: 'calendar', title: 'At the bench', subtitle: 'all pieces', head: [`done ${dayAndTime(together.finish)}`], halts });
  const how = ({ pouring, pieces: of }: BenchTurn): Words[] => {
    if (pouring === null) return [`By the calendar of ${together.pieces[of[0] - 1].scene}.`];
    const pour = together.poured[pouring - 1];
    const halted = isHalted(plans, pour);
    if (halted !== null) return [{ text: said(halted), face: 'bold' }];
    return pour.of.length > 1 ? [said(cupWords(pieces.map(({ scene }) => scene), pour)), ' ', shareWords(together, plans, pour, pieces[0].scene.bench.scaleG)] : ['By its mix card.'];
  };
  const until = ({ from, to }: BenchTurn): string => (from.slice(0, 10) === to.slice(0, 10) ? clockOf(to) : dayAndTime(to));
  const rows = [
    tableRow(COLUMNS, [[], [], [], [{ text: 'What it wins', face: 'bold' }], [together.words, ...together.findings.map(({ message, remedy }) => said(` ${message} ${remedy}`))]], lettering),
    ...together.bench.map((turn) => tableRow(COLUMNS, [{ ticks: [''] }, [dayAndTime(turn.from)], [until(turn)], [{ text: turnWords(together, turn), face: turn.kind === 'pour' ? 'bold' : 'sans' }], how(turn)], lettering)),
  ];
  flowTable(COLUMNS, rows, lettering, columnsOn(open, [0]));
  return book.close();
}
