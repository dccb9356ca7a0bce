/** Edits of the air, the curing box and the bottles: what they set, what they refuse, that undoing them leaves no trace. */
import { describe, expect, it } from 'vitest';
import { addBox, addBoxHours, changeBoxHours, removeBoxHours, setBottles, setBox, setHumidity, setHumidityFrom } from '../../../../src/core/scene/edit/air.ts';
import type { EditResult, SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { setRoomFrom } from '../../../../src/core/scene/edit/room.ts';
import { scene } from '../../../plan/planning.ts';

const FILE = { ...scene(), room: { temperatureC: 21, lamp: 'kept' } } as unknown as SceneFile;

function made(result: EditResult): SceneFile {
  if (!result.ok) throw new Error(result.reason);
  return result.file;
}
const reasonOf = (result: EditResult): string => (result.ok ? '' : result.reason);

describe('air, box and bottles', () => {
  it('are set and taken away again without a trace, beside what is not ours', () => {
    const set = made(setBottles(made(setBox(made(addBox(made(setHumidity(FILE, 55)))), { temperatureC: 28 })), 35));
    expect(set.room).toEqual({ temperatureC: 21, lamp: 'kept', humidity: 55, box: { temperatureC: 28 } });
    expect(set.bench).toMatchObject({ bottlesC: 35 });
    expect(made(setBottles(made(setBox(made(setHumidity(set, null)), null)), null))).toEqual(FILE);
  });

  it('the box’s hours come, change and go', () => {
    const hours = made(changeBoxHours(made(addBoxHours(made(addBox(FILE)))), 0, { to: '22:00' }));
    expect(hours.room?.box).toEqual({ temperatureC: 26, hours: [{ days: 'Mon-Sun', from: '08:00', to: '22:00' }] });
    expect(made(removeBoxHours(hours, 0)).room?.box).toEqual({ temperatureC: 26 });
    expect(reasonOf(removeBoxHours(hours, 1))).toBe('Those hours are no longer in the scene.');
    expect(reasonOf(changeBoxHours(hours, 0, { days: 'Noday' }))).toContain('days');
  });

  it('refuse what can’t be, and say what is expected', () => {
    expect(reasonOf(setHumidity(FILE, 130))).toContain('a number from 0 to 100');
    expect(reasonOf(setBox(FILE, { temperatureC: 90 }))).toContain('a number from 10 to 60');
    expect(reasonOf(setBottles(FILE, 80))).toContain('a number from -10 to 60');
  });

  it('humidity belongs to a time that is there', () => {
    const later = made(setRoomFrom(FILE, '2026-05-05T08:00', 19));
    expect(made(setHumidityFrom(later, '2026-05-05T08:00', 80)).room?.profile).toEqual([{ from: '2026-05-05T08:00', temperatureC: 19, humidity: 80 }]);
    expect(reasonOf(setHumidityFrom(later, '2026-05-06T08:00', 80))).toBe('No temperature is set from that time.');
  });
});
