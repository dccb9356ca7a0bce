/** On the room card: hours in which someone sleeps there, when nothing should go from liquid to tacky. */
import { addSleep, changeSleep, removeSleep, sleepOf } from '../../core/scene/edit/calendar.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { goalOf } from '../../core/scene/edit/wishes.ts';
import { usePiece } from '../shared/piece.ts';
import { TextField } from './fields.tsx';

export function SleepSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const nights = sleepOf(file);
  return (
    <>
      {nights.map(({ days, from, to }, at) => (
        <div key={at} className="hours" role="group" aria-label={nights.length === 1 ? 'Hours of sleep' : `Hours of sleep, line ${at + 1}`}>
          <TextField labelSeen label="Someone sleeps here" value={days} onCommit={(text) => edit((before) => changeSleep(before, at, { days: text }))} />
          <TextField labelSeen type="time" label="from" value={from} onCommit={(text) => edit((before) => changeSleep(before, at, { from: text }))} />
          <TextField labelSeen type="time" label="to" value={to} onCommit={(text) => edit((before) => changeSleep(before, at, { to: text }))} />
          {!readOnly && <button type="button" className="link" aria-label={`Take out the hours of sleep from ${from} to ${to}`} onClick={() => edit((before) => removeSleep(before, at))}>Take out</button>}
        </div>
      ))}
      {nights.length > 0 && goalOf(file) === 'even' && <p className="soft">Even pours only say where a pour would set while someone sleeps. Another goal waits for other hours.</p>}
      {!readOnly && <button type="button" className="link" onClick={() => edit(addSleep)}>{nights.length > 0 ? 'Other hours of sleep' : 'Someone sleeps in this room'}</button>}
    </>
  );
}
