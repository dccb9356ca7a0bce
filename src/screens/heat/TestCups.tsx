/** Test cups of a formula: what was measured, a new one to type or to take from a logger's table, and what they changed. */
import { useId, useRef, useState } from 'react';
import type { CupKind } from '../../core/cure/cup-run.ts';
import { readingsFromCsv } from '../../core/cure/test-cup-csv.ts';
import { CUP_KINDS, type CupReading, type TestCup } from '../../core/cure/test-cup.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { roomC } from '../../core/scene/edit/room.ts';
import { addTestCup, changeTestCup, removeTestCup, testCupsOf } from '../../core/scene/edit/test-cups.ts';
import { counted, plain } from '../../core/units/format.ts';
import { CardSection, ManyField } from '../card/fields.tsx';
import { QuantityField } from '../card/QuantityField.tsx';
import { usePiece } from '../shared/piece.ts';
import './heat.css';

const CUP_WORDS: Readonly<Record<CupKind, string>> = { plastic: 'plastic', paper: 'paper', glass: 'glass', metal: 'metal', foam: 'foam' };
const CUPS = CUP_KINDS.map((value) => ({ value, words: CUP_WORDS[value] }));
/** Of a table that is opened; a logger's month is smaller. */
const MOST_BYTES = 8_000_000;
/** Rows seen of a long table. */
const ROWS_SEEN = 8;
/** What a new cup begins with, g: what pot lives are told for. */
const USUAL_G = 100;

export function TestCups({ file, id }: { readonly file: SceneFile; readonly id: string }) {
  const [adding, setAdding] = useState(false);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const findings = usePiece((state) => state.derived?.plan.findings);
  const checking = usePiece((state) => state.derived?.checkingHeat ?? false);
  const cups = testCupsOf(file, id);
  const told = findings?.filter(({ code, subject }) => code === 'test-cup' && subject === `formula ${id}`) ?? [];
  return (
    <CardSection title="Test cup" note="tells more than the label">
      <p className="soft">Mix a small cup, leave it, and read its temperature a few times until it is cool again. It narrows what the label leaves open. It never allows more depth.</p>
      {cups.map(({ at, cup }, i) => <Cup key={at} at={at} cup={cup} name={cups.length === 1 ? 'Test cup' : `Test cup ${i + 1}`} />)}
      {cups.length > 0 && (checking ? <p role="status" className="soft">checking the heat …</p> : told.map(({ message }) => <p key={message}><b>{message.slice(message.indexOf(': ') + 2)}</b></p>))}
      {!readOnly && (adding ? <NewCup id={id} roomC={roomC(file)} onDone={() => setAdding(false)} /> : <p className="card-actions"><button type="button" className="link" onClick={() => setAdding(true)}>{cups.length === 0 ? 'Enter a test cup' : 'Enter another test cup'}</button></p>)}
    </CardSection>
  );
}

function Cup({ at, cup, name }: { readonly at: number; readonly cup: TestCup; readonly name: string }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const change = (patch: Partial<Omit<TestCup, 'formula'>>): boolean => edit((before) => changeTestCup(before, at, patch));
  const { readings, cup: kind = 'plastic' } = cup;
  const setReading = (i: number, patch: Partial<CupReading>): boolean => change({ readings: readings.map((reading, k) => (k === i ? { ...reading, ...patch } : reading)) });
  return (
    <div className="test-cup" role="group" aria-label={name}>
      <QuantityField label="Mixed" kind="mass" value={cup.massG} onCommit={(massG) => change({ massG })} />
      <ManyField<CupKind> label="Cup" value={kind} choices={CUPS} onChoose={(to) => change({ cup: to })} />
      <QuantityField label="Room" kind="temperature" value={cup.roomC} onCommit={(to) => change({ roomC: to })} />
      {readings.slice(0, ROWS_SEEN).map(({ min, temperatureC }, i) => (
        <p key={i} className="sentence">
          after <QuantityField inSentence label={`Time of reading ${i + 1}`} kind="minutes" value={min} onCommit={(to) => setReading(i, { min: to })} />{' '}
          <QuantityField inSentence label={`Temperature of reading ${i + 1}`} kind="temperature" value={temperatureC} onCommit={(to) => setReading(i, { temperatureC: to })} />{' '}
          {!readOnly && readings.length > 1 && <button type="button" className="link quiet" onClick={() => change({ readings: readings.filter((_, k) => k !== i) })}>Take out<span className="hidden"> reading {i + 1}</span></button>}
        </p>
      ))}
      {readings.length > ROWS_SEEN && <p className="soft">and {counted(readings.length - ROWS_SEEN, 'reading')} more, to {plain(readings[readings.length - 1].min, 0)}{'\u00a0'}min</p>}
      {!readOnly && (
        <p className="card-actions">
          <button type="button" className="link" onClick={() => change({ readings: [...readings, { min: Math.ceil(readings[readings.length - 1].min) + 15, temperatureC: readings[readings.length - 1].temperatureC }] })}>Another reading</button>
          <button type="button" className="link" onClick={() => edit((before) => removeTestCup(before, at))}>Take the cup out</button>
        </p>
      )}
    </div>
  );
}

/** Typed or pasted as lines of time and temperature, or a logger's table opened. What can't be read stays, with what is wrong. */
function NewCup({ id, roomC: room, onDone }: { readonly id: string; readonly roomC: number; readonly onDone: () => void }) {
  const edit = usePiece((state) => state.edit);
  const refusal = usePiece((state) => state.refusal);
  const field = useId();
  const file = useRef<HTMLInputElement>(null);
  const [massG, setMassG] = useState(USUAL_G);
  const [cup, setCup] = useState<CupKind>('plastic');
  const [at, setAt] = useState(room);
  const [text, setText] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [refused, setRefused] = useState(false);
  const add = (): void => {
    const read = readingsFromCsv(text);
    setProblem(read.ok ? null : read.problem);
    if (!read.ok) return;
    const made = edit((before) => addTestCup(before, { formula: id, massG, cup, roomC: at, readings: read.readings }));
    setRefused(!made);
    if (made) onDone();
  };
  const open = async (given: File | undefined): Promise<void> => {
    if (!given) return;
    if (given.size > MOST_BYTES) setProblem(`${given.name} has ${plain(given.size / 1e6)}\u00a0MB; expected a table of at most ${MOST_BYTES / 1e6}\u00a0MB. Take every tenth line.`);
    else {
      setText(await given.text());
      setProblem(null);
    }
  };
  const set = <T,>(to: (value: T) => void) => (value: T): boolean => {
    to(value);
    return true;
  };
  const wrong = problem ?? (refused ? refusal : null);
  return (
    <div className="test-cup" role="group" aria-label="New test cup">
      <QuantityField label="Mixed" kind="mass" value={massG} onCommit={set(setMassG)} />
      <ManyField<CupKind> label="Cup" value={cup} choices={CUPS} onChoose={setCup} />
      <QuantityField label="Room" kind="temperature" value={at} onCommit={set(setAt)} />
      <p className="readings-text">
        <label htmlFor={field}>Readings, one a line: minutes since mixing, °C</label>
        <textarea id={field} spellCheck={false} placeholder={'0, 23\n30, 31\n60, 45'} value={text} aria-invalid={wrong !== null} aria-describedby={wrong ? `${field}-problem` : undefined} onChange={(event) => { setText(event.target.value); setProblem(null); setRefused(false); }} onKeyDown={(event) => event.stopPropagation()} />
      </p>
      {wrong && <p id={`${field}-problem`} role="alert" className="problem">{wrong}</p>}
      <input ref={file} type="file" accept=".csv,.tsv,.txt,text/csv,text/plain" hidden onChange={(event) => { void open(event.target.files?.[0]); event.target.value = ''; }} />
      <p className="card-actions">
        <button type="button" className="button main" onClick={add}>Add the cup</button>
        <button type="button" className="link" onClick={() => file.current?.click()}>Open a logger’s table</button>
        <button type="button" className="link" onClick={onDone}>Leave it</button>
      </p>
    </div>
  );
}
