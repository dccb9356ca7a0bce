/** The person's own calendar: days with other hours at the bench or none, a wanted finish, hours in which someone sleeps in the room. */
import { refused, type EditResult, type ExceptionFile, type HoursFile, type SceneFile } from './file.ts';
import { withParts } from './parts.ts';
import { patched, replacedAt, unlessEmpty } from './replace.ts';

/** What a day that is opened, and a night, begin with (common practice, no source). */
const FIRST_HOURS = { from: '10:00', to: '16:00' } as const;
const FIRST_NIGHT: HoursFile = { days: 'Mon-Sun', from: '22:00', to: '07:00' };

export function exceptionsOf(file: SceneFile): readonly ExceptionFile[] {
  return file.bench?.exceptions ?? [];
}

/** A day on which the bench is shut, like `2026-12-24`. */
export function addException(file: SceneFile, on: string): EditResult {
  return withParts(file, { bench: { exceptions: [...exceptionsOf(file), { on, hours: [] }] } }, `bench shut on ${on}`, 'day');
}

/** `until`: null leaves it at one day. */
export function changeException(file: SceneFile, at: number, patch: { readonly on?: string; readonly until?: string | null }): EditResult {
  const old = exceptionsOf(file)[at];
  if (!old) return gone();
  const { on = old.on, until = old.until ?? null } = patch;
  if (until !== null && until < on) return refused(`Last day: found ${until}, before ${on}; expected that day or a later one.`);
  return withException(file, at, patched(old, { on, until: until ?? undefined }));
}

/** Other hours on that day; null: shut. */
export function setExceptionHours(file: SceneFile, at: number, hours: Partial<Pick<HoursFile, 'from' | 'to'>> | null): EditResult {
  const old = exceptionsOf(file)[at];
  if (!old) return gone();
  const first = old.hours?.[0] ?? FIRST_HOURS;
  return withException(file, at, patched(old, { hours: hours === null ? [] : [{ ...first, ...hours }, ...(old.hours ?? []).slice(1)] }));
}

export function removeException(file: SceneFile, at: number): EditResult {
  if (!exceptionsOf(file)[at]) return gone();
  const left = exceptionsOf(file).filter((_, i) => i !== at);
  return withParts(file, { bench: { exceptions: unlessEmpty(left) } }, 'usual hours again', 'day');
}

/** When the piece is wanted, like `2026-12-20T12:00`; null: whenever it is done. */
export function setReadyBy(file: SceneFile, readyBy: string | null): EditResult {
  return withParts(file, { bench: { readyBy: readyBy ?? undefined } }, readyBy === null ? 'no wanted finish' : `wanted by ${readyBy.replace('T', ' ')}`, 'wanted finish');
}

export function sleepOf(file: SceneFile): readonly HoursFile[] {
  return file.room?.sleep ?? [];
}

export function addSleep(file: SceneFile): EditResult {
  return withSleep(file, [...sleepOf(file), FIRST_NIGHT], 'someone sleeps in the room');
}

export function changeSleep(file: SceneFile, at: number, patch: Partial<HoursFile>): EditResult {
  const old = sleepOf(file)[at];
  if (!old) return refused('Those hours are no longer in the scene.');
  return withSleep(file, replacedAt(sleepOf(file), at, patched(old, patch)), 'hours of sleep');
}

export function removeSleep(file: SceneFile, at: number): EditResult {
  if (!sleepOf(file)[at]) return refused('Those hours are no longer in the scene.');
  return withSleep(file, sleepOf(file).filter((_, i) => i !== at), 'hours of sleep taken out');
}

const gone = (): EditResult => refused('That day is no longer in the scene.');

function withException(file: SceneFile, at: number, exception: ExceptionFile): EditResult {
  return withParts(file, { bench: { exceptions: replacedAt(exceptionsOf(file), at, exception) } }, `bench hours on ${exception.on}`, 'day');
}

function withSleep(file: SceneFile, sleep: readonly HoursFile[], label: string): EditResult {
  return withParts(file, { room: { sleep: unlessEmpty(sleep) } }, label, 'hours of sleep');
}
