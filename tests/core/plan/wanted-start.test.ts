/** A wanted finish and no first day: by hand on TL of the acceptance cases, out of the mold 48 h after the end of a pour of half an hour, watched for another. */
import { describe, expect, it } from 'vitest';
import { differenceSentence } from '../../../src/core/plan/what-if-sentence.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import { planOf, scene } from '../../plan/planning.ts';

const wanted = (bench: object, more: object = {}) => planOf({ ...scene({ fillMm: 20, ...more }), bench });
const codes = ({ findings }: ReturnType<typeof wanted>) => findings.map(({ code }) => code);

describe('a piece that is wanted by a day and begins on none', () => {
  it('begins as late as has it done by then', () => {
    // Ended by Friday at 9:00 it is out on Sunday at 9:00.
    const plan = wanted({ readyBy: '2026-05-10T09:00' });
    expect([plan.pours[0].starts, plan.finish]).toEqual(['2026-05-08T08:30', '2026-05-10T09:00']);
    expect(codes(plan)).toContain('start-latest');
    expect(codes(plan)).not.toContain('start-assumed');
    // By 7:30 on Friday nobody is there yet: on Thursday the watch ends as the bench shuts.
    expect(wanted({ readyBy: '2026-05-10T07:30' }).pours[0].starts).toBe('2026-05-07T19:00');
  });

  it('says by when another room has it begun', () => {
    const piece = (temperatureC: number) => {
      const document = { ...scene({ fillMm: 20, room: { temperatureC } }), bench: { readyBy: '2026-05-10T09:00' } };
      const reading = readScene(document);
      if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
      return { scene: reading.scene, plan: planOf(document) };
    };
    // At 13 °C half as quick: 96 h before Sunday at 9:00 the pour ends, on Wednesday.
    expect(differenceSentence('At 13\u00a0°C', piece(23), piece(13)).replace(/\u00a0/g, ' ')).toContain('to be begun by Wed 6 May, 08:30, 2 d sooner');
  });

  it('is planned so for any goal and for its finish too, and by its own day where it has one', () => {
    expect(planOf({ ...scene({ fillMm: 20 }), plan: { goal: 'soonest' }, bench: { readyBy: '2026-05-10T09:00' } }).pours[0].starts).toBe('2026-05-08T08:30');
    const finished = planOf({ ...scene({ fillMm: 20 }), finishing: { top: 'sanded' }, bench: { readyBy: '2026-05-30T18:00' } });
    expect(finished.ready! <= '2026-05-30T18:00').toBe(true);
    // A day earlier at the latest it would begin in time as well: it does not begin much too soon.
    expect(finished.ready! > '2026-05-29T00:00').toBe(true);
    expect(wanted({ readyBy: '2026-05-10T09:00', start: '2026-05-04T08:00' }).pours[0].starts).toBe('2026-05-04T08:00');
    expect(codes(wanted({}))).toContain('start-assumed');
  });
});
