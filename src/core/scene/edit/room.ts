/** The room: how warm it is, and from when it is otherwise. */
import { parseLocalTime } from '../../units/time.ts';
import { plain } from '../../units/format.ts';
import { refused, type EditResult, type RoomEntryFile, type SceneFile } from './file.ts';
import { withParts } from './parts.ts';
import { patched, unlessEmpty } from './replace.ts';

/** °C until someone says otherwise. */
const USUAL_ROOM_C = 23;

export function roomC(file: SceneFile): number {
  return file.room?.temperatureC ?? USUAL_ROOM_C;
}

export function roomProfile(file: SceneFile): readonly RoomEntryFile[] {
  return file.room?.profile ?? [];
}

/** `null` goes back to the usual 23 °C. */
export function setRoomC(file: SceneFile, temperatureC: number | null): EditResult {
  return withParts(file, { room: { temperatureC: temperatureC ?? undefined } }, `room at ${plain(temperatureC ?? USUAL_ROOM_C, 1)}\u00a0°C`, 'room');
}

/** From a local time on the room has another temperature; one given for that time already is replaced. Entries are kept in order of time. */
export function setRoomFrom(file: SceneFile, from: string, temperatureC: number): EditResult {
  const minute = parseLocalTime(from);
  if (minute === null) return refused(`Found “${from.slice(0, 40)}”; expected a local time that exists, like 2026-05-04T20:00.`);
  const old = roomProfile(file).find((entry) => parseLocalTime(entry.from) === minute);
  const entry = old ? patched(old, { temperatureC }) : { from, temperatureC };
  const profile = [...roomProfile(file).filter((each) => each !== old), entry].sort((a, b) => parseLocalTime(a.from)! - parseLocalTime(b.from)!);
  return withParts(file, { room: { profile } }, `room at ${plain(temperatureC, 1)}\u00a0°C from ${from.replace('T', ' ')}`, 'room');
}

export function removeRoomFrom(file: SceneFile, from: string): EditResult {
  const profile = roomProfile(file).filter((entry) => entry.from !== from);
  if (profile.length === roomProfile(file).length) return refused('No temperature is set from that time.');
  return withParts(file, { room: { profile: unlessEmpty(profile) } }, `room from ${from.replace('T', ' ')} taken out`, 'room');
}
