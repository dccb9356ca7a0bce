/** On the bench card: days with other hours or none, and when the piece is wanted. */
import { addException, changeException, exceptionsOf, removeException, setExceptionHours, setReadyBy } from '../../core/scene/edit/calendar.ts';
import type { ExceptionFile, SceneFile } from '../../core/scene/edit/file.ts';
import { usePiece } from '../shared/piece.ts';
import { FewField, TextField } from './fields.tsx';

export function DaysSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const days = exceptionsOf(file);
  return (
    <>
      {days.map((day, at) => <Day key={at} day={day} at={at} />)}
      {!readOnly && <TextField key={days.length} labelSeen type="date" label="Another day shut, or with other hours" value="" onCommit={(on) => edit((before) => addException(before, on))} />}
      <TextField labelSeen type="datetime-local" label="Wanted by" value={file.bench?.readyBy?.slice(0, 16) ?? ''} onCommit={(by) => edit((before) => setReadyBy(before, by === '' ? null : by))} />
    </>
  );
}

function Day({ day, at }: { readonly day: ExceptionFile; readonly at: number }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const hours = day.hours?.[0];
  return (
    <div className="hours" role="group" aria-label={`Bench on ${day.on}`}>
      <TextField labelSeen type="date" label="On" value={day.on} onCommit={(on) => edit((before) => changeException(before, at, { on }))} />
      <TextField labelSeen type="date" label="until" value={day.until ?? ''} onCommit={(until) => edit((before) => changeException(before, at, { until: until === '' ? null : until }))} />
      <FewField label="the bench is" value={hours ? 'open' : 'shut'} choices={[{ value: 'shut', words: 'shut' }, { value: 'open', words: 'open' }]} onChoose={(to) => edit((before) => setExceptionHours(before, at, to === 'shut' ? null : {}))} />
      {hours && <TextField labelSeen type="time" label="from" value={hours.from} onCommit={(from) => edit((before) => setExceptionHours(before, at, { from }))} />}
      {hours && <TextField labelSeen type="time" label="to" value={hours.to} onCommit={(to) => edit((before) => setExceptionHours(before, at, { to }))} />}
      {!readOnly && <button type="button" className="link" aria-label={`Take out ${day.on}`} onClick={() => edit((before) => removeException(before, at))}>Take out</button>}
    </div>
  );
}
