/** How warm the room is, and from when it is otherwise. */
import { isDefault } from '../../core/scene/edit/default.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { setHumidityFrom } from '../../core/scene/edit/air.ts';
import { removeRoomFrom, roomC, roomProfile, setRoomC, setRoomFrom } from '../../core/scene/edit/room.ts';
import { dayAndTime } from '../../core/units/when.ts';
import { usePiece } from '../shared/piece.ts';
import { AirSection } from './AirSection.tsx';
import { CardSection, TextField } from './fields.tsx';
import { PLACES } from './PieceParts.tsx';
import { QuantityField } from './QuantityField.tsx';
import { SleepSection } from './SleepSection.tsx';

export function RoomSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  return (
    <CardSection title="Room" place={PLACES.room}>
      <QuantityField label="Temperature" kind="temperature" usual={isDefault(file, 'room.temperatureC')} value={roomC(file)} onCommit={(c) => edit((before) => setRoomC(before, c))} />
      {roomProfile(file).map(({ from, temperatureC, humidity }) => (
        <p key={from} className="sentence">
          From {dayAndTime(from)} <QuantityField inSentence label={`Temperature from ${dayAndTime(from)}`} kind="temperature" value={temperatureC} onCommit={(c) => edit((before) => setRoomFrom(before, from, c))} />{' '}
          {file.room?.humidity !== undefined && <>in air at <QuantityField inSentence label={`Humidity from ${dayAndTime(from)}`} kind="percent" value={humidity ?? null} placeholder="the same" onCommit={(percent) => edit((before) => setHumidityFrom(before, from, percent))} />{' '}</>}
          <button type="button" className="link" onClick={() => edit((before) => removeRoomFrom(before, from))}>Take out</button>
        </p>
      ))}
      <TextField key={roomProfile(file).length} labelSeen type="datetime-local" label="Warmer or colder from" value="" onCommit={(from) => edit((before) => setRoomFrom(before, from, roomC(before)))} />
      <AirSection file={file} />
      <SleepSection file={file} />
    </CardSection>
  );
}
