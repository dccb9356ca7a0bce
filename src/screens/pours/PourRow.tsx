/** One pour: where it lies and why, its amounts, and the wait after it. */
import { divisionDigits, fixed, listed, plain, span } from '../../core/units/format.ts';
import { clockOf, dayAndTime, weekdayAndTime } from '../../core/units/when.ts';
import { bottleWords } from '../../core/plan/air/bottle-words.ts';
import type { ClassPlan, Finding, Plan, Pour } from '../../core/plan/plan.ts';
import { classTimeOf, classWorkAfter } from '../../core/plan/runs/class-marks.ts';
import type { LedgerRow } from '../../store/ledger.ts';
import type { Wait } from '../../store/waits.ts';
import { hatchOf } from '../../core/sheet/section.ts';
import type { Scene } from '../../core/scene/scene.ts';
import { hatchId } from '../gauge/hatches.tsx';
import { HeatLine } from '../heat/HeatLine.tsx';
import { pourRowId } from '../shared/choose-pour.ts';
import { Rich } from '../shared/Rich.tsx';
import { useWords, type Words } from '../shared/words.ts';
import { VOLUME_WORDS, volumeShown, type ShownVolume, type VolumeUnit } from './volumes.ts';
import { PaintedHere } from './PaintedHere.tsx';
import { PourLine } from './PourLine.tsx';
import { WaitStrip } from './WaitStrip.tsx';

export interface PourRowProps {
  readonly pour: Pour;
  readonly scene: Scene;
  readonly next: Pour | undefined;
  readonly steps: Plan['steps'];
  readonly formula: string;
  /** null: it must not be poured, and gets no amounts. */
  readonly amounts: LedgerRow | null;
  readonly halts: readonly Finding[];
  readonly wait: Wait;
  readonly pxPerMin: number;
  readonly scaleG: number;
  readonly volumeUnit: VolumeUnit;
  readonly names: readonly string[];
  readonly keep: boolean;
  readonly finish: string;
  /** Undefined: no class makes it. */
  readonly meeting: ClassPlan | undefined;
  readonly chosen: boolean;
  readonly tinted: boolean;
  readonly onChoose: () => void;
  /** Of the shared hatch and strip patterns. */
  readonly prefix: string;
}

export function PourRow(props: PourRowProps) {
  const { pour, scene, formula, amounts, halts, wait, pxPerMin, names, chosen, tinted, onChoose, prefix, meeting } = props;
  const toClass = meeting ? classTimeOf(meeting, pour.index) : null;
  const { length, lengthNumber } = useWords();
  return (
    <li id={pourRowId(pour.index)} className={chosen ? 'pour-row chosen' : 'pour-row'}>
      <button type="button" className="swatch" aria-pressed={chosen} aria-label={`Pour ${pour.index}`} onClick={onChoose}>
        <svg width="52" height="52" viewBox="0 0 52 52" aria-hidden="true">
          <rect x="1" y="1" width="50" height="50" className={amounts === null ? 'brick-wash' : tinted ? 'water' : 'water clear'} />
          {amounts !== null && <rect x="1" y="1" width="50" height="50" fill={`url(#${hatchId(prefix, hatchOf(pour.index))})`} className="hatched" />}
          <rect x="1" y="1" width="50" height="50" className="swatch-edge" />
          <text x="26" y="35" textAnchor="middle" className={amounts === null ? 'swatch-number halo halt' : 'swatch-number halo'}>{pour.index}</text>
        </svg>
      </button>
      <div className="pour-what">
        <h3>{lengthNumber(pour.fromMm)} to {length(pour.toMm)} <i>{formula}</i></h3>
        {toClass !== null && <p className={`class-mark class-mark-${toClass}`}>{CLASS_TIMES[toClass]}</p>}
        <p><Rich text={pour.why} names={names} /></p>
      </div>
      {amounts === null ? <DoNotPour halts={halts} names={names} /> : <Amounts {...props} amounts={amounts} />}
      <HeatLine pour={pour} scene={scene} />
      {amounts !== null && <PourLine {...props} />}
      <div className="pour-wait">
        {amounts !== null && <WaitStrip wait={wait} pxPerMin={pxPerMin} prefix={prefix} />}
        {amounts !== null && <WaitWords {...props} />}
      </div>
      {amounts !== null && <PaintedHere {...props} />}
    </li>
  );
}

const CLASS_TIMES = { before: 'before the class', in: 'in the class, by each student', after: 'after the class' } as const;

function DoNotPour({ halts, names }: { readonly halts: readonly Finding[]; readonly names: readonly string[] }) {
  return (
    <div className="do-not-pour">
      <p><b>DO NOT POUR</b></p>
      {halts.map(({ message }) => <p key={message}><Rich text={message} names={names} /></p>)}
    </div>
  );
}

function Amounts({ amounts, pour, scene, scaleG, volumeUnit }: PourRowProps & { readonly amounts: LedgerRow }) {
  const { atLeast } = useWords();
  const digits = divisionDigits(scaleG);
  const unit = VOLUME_WORDS[volumeUnit];
  const stops = amounts.stopsG.map((stop) => `${fixed(stop, digits)}\u00a0g`);
  return (
    <>
      <dl className="amounts">
        <div><dt>net {unit}</dt><dd><Volume {...volumeShown(amounts.netMl, volumeUnit)} /></dd></div>
        <div><dt>mix {unit}</dt><dd><Volume {...volumeShown(amounts.mixMl, volumeUnit)} /></dd></div>
        <div><dt>part A <span className="which">(resin) </span>g</dt><dd>{fixed(amounts.partAG, digits)}</dd></div>
        <div><dt>part B <span className="which">(hardener) </span>g</dt><dd>{amounts.partBG === null ? 'none' : fixed(amounts.partBG, digits)}</dd></div>
      </dl>
      <p className="pour-scale">
        {amounts.cups > 1 && <b>{amounts.cups} equal cups. In each: </b>}
        Stop the scale at <b>{stops[0]}</b>{stops.length > 1 && <>, then at <b>{stops[1]}</b></>}.
        {amounts.tintG > 0 && ` Dye ${plain(amounts.tintG, 2)}\u00a0g, weighed apart.`} Fill to <b>{atLeast(pour.fillMarkFromRimMm)}</b> from the rim. {bottleWords(scene, pour)}
      </p>
    </>
  );
}

/** The number of its column, the other unit under it. */
export function Volume({ number, other }: ShownVolume) {
  return <>{number}<span className="other-volume">{other}</span></>;
}

function WaitWords({ pour, next, wait, keep, finish, meeting, scene, names }: PourRowProps) {
  const inClass = meeting ? classWorkAfter(meeting, pour.index, (id) => scene.placements.find((placement) => placement.id === id)?.name ?? id) : null;
  const parts = wait.spans.map(({ kind, fromMin, toMin }) => `${kind === 'dries' ? 'paint dries' : kind} ${span(toMin - fromMin)}`);
  const then = next?.route === 'wet-on-tacky' ? 'then onto the tacky surface' : wait.spans.some(({ kind }) => kind === 'dries') ? 'then onto dry paint' : 'then onto the scuffed surface';
  return (
    <div className="wait-words">
      <p className="soft"><b>{span(wait.toMin - wait.fromMin)}</b>{parts.length > 0 && <>: {parts.join(', ')}</>}</p>
      {inClass !== null && <p className="class-mark class-mark-in">in the class, {dayAndTime(meeting!.at)}: each student <Rich text={inClass} names={names} /></p>}
      {pour.box && <p className="soft">in the curing box <b>{weekdayAndTime(pour.box.from)}</b> to {weekdayAndTime(pour.box.to)}</p>}
      <p className="soft">
        {next ? <>{then}, pour {next.index}: <b>{dayAndTime(next.starts)}</b></> : <>then <b>{keep ? 'done' : 'out of the mold'}: {dayAndTime(finish)}</b></>}
        {wait.tacky && <> <span className="tacky-words">tacky {weekdayAndTime(pour.opens)} to {sameDay(pour.opens, pour.closes) ? clockOf(pour.closes) : weekdayAndTime(pour.closes)}</span></>}
      </p>
    </div>
  );
}

const sameDay = (a: string, b: string): boolean => a.slice(0, 10) === b.slice(0, 10);

/** `1,320 mL to the top, less 203 mL for the bed and the figures`. */
export function inAllWords(fillMl: number, displacedMl: number, solids: readonly string[], { volume }: Words): string {
  const all = `${volume(fillMl)} to the top`;
  return displacedMl > 0 ? `${all}, less ${volume(displacedMl)} for ${listed(solids)}` : all;
}
