/** What is around the piece and its resin beside the room's warmth: damp air, a curing box, warmed bottles. */
import { plain } from '../../units/format.ts';
import { refused, type BoxFile, type EditResult, type HoursFile, type SceneFile } from './file.ts';
import { withParts } from './parts.ts';
import { patched, replacedAt, unlessEmpty } from './replace.ts';

/** What a box and its hours begin with, °C (common practice, no source: boxes are kept at 24 to 28). */
const FIRST_BOX_C = 26;
const FIRST_HOURS: HoursFile = { days: 'Mon-Sun', from: '08:00', to: '20:00' };

/** Relative humidity in percent; null: nobody measured it. */
export function setHumidity(file: SceneFile, humidity: number | null): EditResult {
  return withParts(file, { room: { humidity: humidity ?? undefined } }, humidity === null ? 'humidity not measured' : `air at ${plain(humidity)}\u00a0%`, 'humidity');
}

/** From a time on that has its own temperature; null: as before. */
export function setHumidityFrom(file: SceneFile, from: string, humidity: number | null): EditResult {
  const profile = file.room?.profile ?? [];
  if (!profile.some((entry) => entry.from === from)) return refused('No temperature is set from that time.');
  const changed = profile.map((entry) => (entry.from === from ? patched(entry, { humidity: humidity ?? undefined }) : entry));
  return withParts(file, { room: { profile: changed } }, 'humidity', 'humidity');
}

export function boxOfFile(file: SceneFile): BoxFile | null {
  return file.room?.box ?? null;
}

export function addBox(file: SceneFile): EditResult {
  return setBox(file, { temperatureC: FIRST_BOX_C });
}

/** Another temperature or other hours; null takes the box away. */
export function setBox(file: SceneFile, patch: { readonly temperatureC?: number; readonly hours?: readonly HoursFile[] } | null): EditResult {
  if (patch === null) return withParts(file, { room: { box: undefined } }, 'no curing box', 'curing box');
  const box: BoxFile = { ...(file.room?.box ?? { temperatureC: FIRST_BOX_C }) };
  const hours = patch.hours ?? box.hours;
  return withParts(file, { room: { box: patched(box, { temperatureC: patch.temperatureC ?? box.temperatureC, hours: unlessEmpty(hours) }) } }, `curing box at ${plain(patch.temperatureC ?? box.temperatureC, 1)}\u00a0°C`, 'curing box');
}

export function boxHours(file: SceneFile): readonly HoursFile[] {
  return file.room?.box?.hours ?? [];
}

export function addBoxHours(file: SceneFile): EditResult {
  return setBox(file, { hours: [...boxHours(file), FIRST_HOURS] });
}

export function changeBoxHours(file: SceneFile, at: number, patch: Partial<HoursFile>): EditResult {
  const old = boxHours(file)[at];
  return old ? setBox(file, { hours: replacedAt(boxHours(file), at, patched(old, patch)) }) : refused('Those hours are no longer in the scene.');
}

export function removeBoxHours(file: SceneFile, at: number): EditResult {
  return boxHours(file)[at] ? setBox(file, { hours: boxHours(file).filter((_, i) => i !== at) }) : refused('Those hours are no longer in the scene.');
}

/** °C of resin and hardener when they are mixed; null: as warm as the room. */
export function setBottles(file: SceneFile, bottlesC: number | null): EditResult {
  return withParts(file, { bench: { bottlesC: bottlesC ?? undefined } }, bottlesC === null ? 'bottles as warm as the room' : `bottles at ${plain(bottlesC, 1)}\u00a0°C`, 'bottles');
}
