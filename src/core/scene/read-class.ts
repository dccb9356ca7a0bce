/** A class that makes the piece: who, when, and what each student does with their own hands. */
import { parseLocalTime } from '../units/time.ts';
import type { ClassMeeting } from './scene.ts';
import type { SceneDocument } from './schema.ts';

type Refuse = (path: string, message: string) => void;

/** Own rule of the trade's bench: no mixing, and no resin that is not cured, for anyone younger (from memory). Years. */
export const LEAST_AGE = 18;

export function classOf({ class: meeting, copies, placements, bench }: SceneDocument, refuse: Refuse): ClassMeeting | undefined {
  if (!meeting) return undefined;
  const { students, youngest, perStudent: { paint, set, pour } } = meeting;
  if (copies !== undefined && copies !== students) refuse('copies', `found ${copies}; expected ${students}, one for every student of class.students. Leave "copies" out, or make the two agree.`);
  if (pour && youngest < LEAST_AGE) refuse('class.perStudent.pour', `found true with a youngest of ${youngest}; expected false: nobody under ${LEAST_AGE} mixes resin or touches it before it has cured. Let the teacher pour.`);
  const check = (key: 'paint' | 'set', ids: readonly string[] | undefined, kinds: readonly string[]) => ids?.forEach((id, i) => {
    const known = placements.filter(({ kind }) => kinds.includes(kind)).map((one) => one.id);
    if (!known.includes(id)) refuse(`class.perStudent.${key}[${i}]`, `found "${id}"; expected ${known.length > 0 ? `one of ${known.slice(0, 12).map((one) => `"${one}"`).join(', ')}` : `nothing: the scene has no ${key === 'paint' ? 'plane' : 'figure'}`}.`);
  });
  check('paint', paint, ['plane']);
  check('set', set, ['figure']);
  return { students, fromMin: parseLocalTime(meeting.at)!, hours: meeting.hours, youngest, paint: paint ?? null, set: set ?? null, pour, pourH: bench.pourH };
}
