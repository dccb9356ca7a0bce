/** On the room card: how damp the air is, how warm the bottles are, and a warm box to cure in. */
import { addBox, addBoxHours, boxHours, boxOfFile, changeBoxHours, removeBoxHours, setBottles, setBox, setHumidity } from '../../core/scene/edit/air.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { usePiece } from '../shared/piece.ts';
import { HoursRow } from './HoursRow.tsx';
import { QuantityField } from './QuantityField.tsx';

interface Part {
  readonly file: SceneFile;
}

export function AirSection({ file }: Part) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const humidity = file.room?.humidity ?? null;
  const bottlesC = file.bench?.bottlesC ?? null;
  return (
    <>
      <QuantityField label="Humidity" kind="percent" value={humidity} placeholder="not measured" onCommit={(percent) => edit((before) => setHumidity(before, percent))} />
      {humidity !== null && !readOnly && <button type="button" className="link" onClick={() => edit((before) => setHumidity(before, null))}>Humidity not measured</button>}
      <QuantityField label="Bottles when mixed" kind="temperature" value={bottlesC} placeholder="as the room" onCommit={(c) => edit((before) => setBottles(before, c))} />
      {bottlesC !== null && !readOnly && <button type="button" className="link" onClick={() => edit((before) => setBottles(before, null))}>Bottles as warm as the room</button>}
      <Box file={file} />
    </>
  );
}

function Box({ file }: Part) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const box = boxOfFile(file);
  if (box === null) return readOnly ? null : <button type="button" className="link" onClick={() => edit(addBox)}>Cure it in a warm box</button>;
  const hours = boxHours(file);
  return (
    <>
      <QuantityField label="Curing box" kind="temperature" value={box.temperatureC} onCommit={(temperatureC) => edit((before) => setBox(before, { temperatureC }))} />
      <p className="soft">The piece goes in once its newest pour is tacky, at your bench hours, and comes out for the next work on it.</p>
      {hours.map((row, at) => (
        <HoursRow
          key={at}
          name={hours.length === 1 ? 'Hours of the box' : `Hours of the box, line ${at + 1}`}
          daysLabel="The box is warm"
          hours={row}
          onChange={(part) => edit((before) => changeBoxHours(before, at, part))}
          takeOut={readOnly ? null : { name: `Take out the box’s hours from ${row.from} to ${row.to}`, press: () => edit((before) => removeBoxHours(before, at)) }}
        />
      ))}
      {!readOnly && <button type="button" className="link" onClick={() => edit(addBoxHours)}>{hours.length > 0 ? 'Other hours of the box' : 'Only warm at some hours'}</button>}
      {!readOnly && <button type="button" className="link" onClick={() => edit((before) => setBox(before, null))}>No curing box</button>}
    </>
  );
}
