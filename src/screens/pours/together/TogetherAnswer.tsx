/** One plan for several pieces: what it wins, what to mind, when each begins, the order at the bench, and files to take along. */
import { useState } from 'react';
import { isHalted, type BenchTurn } from '../../../core/plan/runs/together-plan.ts';
import { cupWords, shareWords, turnWords } from '../../../core/plan/runs/together-text.ts';
import { isUndated } from '../../../core/plan/undated.ts';
import { setStart } from '../../../core/scene/edit/bench.ts';
import { capital } from '../../../core/units/format.ts';
import { dayAndTime } from '../../../core/units/when.ts';
import type { RecentPiece } from '../../../store/piece-state.ts';
import type { PlannedTogether } from '../../../work/together-protocol.ts';
import { SEVERITY_WORDS } from '../../card/CardParts.tsx';
import { FirstDay } from '../../card/FirstDay.tsx';
import { download, fileNameOf } from '../../files/download.ts';
import { Rich } from '../../shared/Rich.tsx';
import { usePiece } from '../../shared/piece.ts';
import { togetherFindings, type TogetherFinding } from './together-words.ts';
import { useTogether, type TogetherPlanning } from './use-together.ts';

export function TogetherAnswer({ others }: { readonly others: readonly RecentPiece[] }) {
  const planning = useTogether(others);
  const { look } = planning;
  return (
    <>
      <p role="status" className={look.kind === 'told' ? 'together-won' : 'soft'}>{look.kind === 'doing' ? look.words : look.kind === 'told' ? look.planned.together.words : ''}</p>
      {look.kind === 'refused' && look.lines.map((line) => <p key={line} role="alert" className="problem">{line}</p>)}
      {look.kind === 'told' && <Told planning={planning} planned={look.planned} keys={look.keys} />}
    </>
  );
}

interface ToldProps {
  readonly planning: TogetherPlanning;
  readonly planned: PlannedTogether;
  readonly keys: readonly string[];
}

function Told({ planning, planned, keys }: ToldProps) {
  const { together, scenes } = planned;
  const names = [...scenes.map(({ name }) => name), ...scenes.flatMap(({ placements }) => placements.map(({ name }) => name))];
  const findings = togetherFindings(planned);
  const cautions = findings.filter(({ severity, piece }) => severity === 'caution' && piece !== null);
  return (
    <>
      {!together.whole && <p className="soft">Not every order was tried: there are too many. This is the best of those that looked best.</p>}
      <ul className="together-findings">{findings.filter((one) => !cautions.includes(one)).map((one, i) => <Minded key={i} one={one} names={names} />)}</ul>
      <Starts planned={planned} />
      <h3>At the bench</h3>
      <ol className="bench-order">{together.bench.map((turn, i) => <Turn key={i} turn={turn} planned={planned} names={names} />)}</ol>
      <Files planning={planning} planned={planned} keys={keys} />
      {cautions.length > 0 && (
        <details className="cautions">
          <summary>Cautions of the pieces ({cautions.length})</summary>
          <ul>{cautions.map((one, i) => <Minded key={i} one={one} names={names} />)}</ul>
        </details>
      )}
    </>
  );
}

function Minded({ one: { severity, piece, message, remedy }, names }: { readonly one: TogetherFinding; readonly names: readonly string[] }) {
  return <li><span className={`mark mark-${severity}`}>{SEVERITY_WORDS[severity]}</span> {piece !== null && <><i>{piece}</i>: </>}<Rich text={message} names={names} /> <span className="soft"><Rich text={remedy} names={names} /></span></li>;
}

function Starts({ planned: { together, plans } }: { readonly planned: PlannedTogether }) {
  const start = usePiece((state) => state.document?.bench?.start);
  const [own] = together.pieces;
  return (
    <>
      <h3>When each begins</h3>
      <ul>{together.pieces.map(({ scene, starts, finish }) => <li key={scene}><i>{scene}</i> begins <b>{dayAndTime(starts)}</b>, done {dayAndTime(finish)}</li>)}</ul>
      <OwnStart own={own} start={start} undated={plans.some(isUndated)} />
    </>
  );
}

interface OwnStartProps {
  readonly own: PlannedTogether['together']['pieces'][number];
  readonly start: string | undefined;
  /** No piece has a first day. */
  readonly undated: boolean;
}

function OwnStart({ own, start, undated }: OwnStartProps) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  if (undated) return <><p className="soft">None of them has a first day: days are counted, and a calendar needs dates.</p><FirstDay /></>;
  if (start?.slice(0, 16) === own.starts) return <p className="soft">This piece begins so already. The others are not changed: open each and set its first day on its card.</p>;
  if (readOnly) return null;
  return (
    <p className="use-starts">
      <button type="button" className="button" onClick={() => edit((before) => setStart(before, own.starts))}>Use these starts</button>
      <span className="soft">Sets the first day of <i>{own.scene}</i> only. The others are not changed: open each and set its own.</span>
    </p>
  );
}

function Turn({ turn, planned: { together, scenes, plans }, names }: { readonly turn: BenchTurn; readonly planned: PlannedTogether; readonly names: readonly string[] }) {
  const pour = turn.pouring === null ? null : together.poured[turn.pouring - 1];
  const halted = pour && isHalted(plans, pour);
  return (
    <li>
      <b>{dayAndTime(turn.from)}</b> <Rich text={capital(turnWords(together, turn))} names={names} />
      {halted !== null && <span className="together-halt"><b>DO NOT POUR</b> <Rich text={halted} names={names} /></span>}
      {pour && halted === null && pour.of.length > 1 && <span className="soft"><Rich text={`${cupWords(scenes, pour)} ${shareWords(together, plans, pour, scenes[0].bench.scaleG)}`} names={names} /></span>}
    </li>
  );
}

function Files({ planning, planned: { scenes, plans }, keys }: ToldProps) {
  const paper = usePiece((state) => state.paper);
  const units = usePiece((state) => state.units);
  const [writing, setWriting] = useState(false);
  const undated = plans.some(isUndated);
  const named = (ending: string): string => fileNameOf(scenes[0].name, ` together${ending}`);
  const saveCalendar = async (): Promise<void> => {
    const { calendarOfPieces } = await import('../../../files/calendar.ts');
    download(named('.ics'), new Blob([calendarOfPieces(plans.map((plan, i) => ({ plan, piece: keys[i] })), 'Poured together', { madeMs: Date.now() })], { type: 'text/calendar' }));
  };
  const saveTable = async (): Promise<void> => {
    const { poursOfPiecesCsv } = await import('../../../files/csv.ts');
    download(named('.csv'), new Blob([poursOfPiecesCsv(scenes.map((scene, i) => ({ scene, plan: plans[i] })))], { type: 'text/csv' }));
  };
  const saveSheets = async (): Promise<void> => {
    if (writing) return;
    setWriting(true);
    const bytes = await planning.pdf(paper, units);
    setWriting(false);
    if (bytes) download(named('.pdf'), new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' }));
  };
  return (
    <p className="together-files">
      <span className="soft">What is saved here has the times together; each piece’s own sheet has it by itself.</span>
      <button type="button" className="button" aria-disabled={writing} onClick={() => void saveSheets()}>Save all sheets in one PDF</button>
      <button type="button" className="button" aria-disabled={undated} onClick={() => !undated && void saveCalendar()}>Save one calendar</button>
      <button type="button" className="button" onClick={() => void saveTable()}>Save one table</button>
      <span role="status" className="soft">{writing ? 'Writing the sheets …' : ''}</span>
    </p>
  );
}
