/** The room as a scene has it: its temperatures in order of time, its air, its curing box. What nobody set is left out. */
import { parseLocalTime } from '../units/time.ts';
import { hoursFrom } from './read-wishes.ts';
import type { Room } from './scene.ts';
import type { SceneDocument } from './schema.ts';

export function roomOf({ room }: SceneDocument): Room {
  const { temperatureC, profile, sleep, humidity, box } = room;
  return {
    temperatureC,
    profile: profile
      .map((entry) => ({ fromMin: parseLocalTime(entry.from)!, temperatureC: entry.temperatureC, ...(entry.humidity === undefined ? {} : { humidity: entry.humidity }) }))
      .sort((a, b) => a.fromMin - b.fromMin),
    ...(sleep.length > 0 ? { sleep: sleep.map(hoursFrom) } : {}),
    ...(humidity === undefined ? {} : { humidity }),
    ...(box ? { box: { temperatureC: box.temperatureC, hours: box.hours.map(hoursFrom) } } : {}),
  };
}
