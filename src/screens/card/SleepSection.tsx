/** On the room card: hours in which someone sleeps there, when nothing should go from liquid to tacky. */
import { addSleep, changeSleep, removeSleep, sleepOf } from '../../core/scene/edit/calendar.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { usePiece } from '../shared/piece.ts';
import { HoursRow } from './HoursRow.tsx';

export function SleepSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const nights = sleepOf(file);
  return (
    <>
      {nights.map((night, at) => (
        <HoursRow
          key={at}
          name={nights.length === 1 ? 'Hours of sleep' : `Hours of sleep, line ${at + 1}`}
          daysLabel="Someone sleeps here"
          hours={night}
          onChange={(part) => edit((before) => changeSleep(before, at, part))}
          takeOut={readOnly ? null : { name: `Take out the hours of sleep from ${night.from} to ${night.to}`, press: () => edit((before) => removeSleep(before, at)) }}
        />
      ))}
      {!readOnly && <button type="button" className="link" onClick={() => edit(addSleep)}>{nights.length > 0 ? 'Other hours of sleep' : 'Someone sleeps in this room'}</button>}
    </>
  );
}
