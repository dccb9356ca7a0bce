/** A class: what is done before, in and after it, replayed from the plan's own steps and clocks by the rules of trade.md §7 and §10. */
import { describe, expect, it } from 'vitest';
import { planScene } from '../../../../src/core/plan/plan-scene.ts';
import { simulatedHeat } from '../../../../src/core/plan/heat-simulated.ts';
import type { Plan } from '../../../../src/core/plan/plan.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import { minutesOf } from '../../../plan/check-time.ts';
import { NO_BOOLEANS, planOf, problemsOf, scene } from '../../../plan/planning.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';

const plane = (id: string, atMm: number, paintH = 2) => ({ id, kind: 'plane', name: id, atMm, paintH, dryH: 8 });
const newt = { id: 'newt', kind: 'figure', name: 'Newt', shape: { type: 'box', lengthMm: 20, widthMm: 10, heightMm: 4 }, baseMm: 12, massG: 5, hold: 'rests' };
const taught = (more: object, placements: object[] = [plane('low', 6), newt]) => ({
  ...scene({ mold: { lengthMm: 100, widthMm: 80 }, fillMm: 18, placements }),
  class: { students: 6, at: '2026-05-16T10:00', hours: 3, ...more },
});
const inClass = ({ steps }: Plan) => steps.filter((step) => step.class === 'in');

/** Whatever the class: nobody works on a surface before it can be worked on, and the class keeps its hours. */
function check(document: object, plan: Plan): string[] {
  const problems: string[] = [];
  const meeting = plan.class!;
  for (const { kind, from, to } of inClass(plan)) {
    if (from < meeting.at || to > meeting.to) problems.push(`${kind} from ${from} to ${to} is outside the class`);
    if (!['paint', 'place', 'pour'].includes(kind)) problems.push(`${kind} in the class`);
  }
  const named = new Set([...meeting.paints, ...meeting.sets]);
  for (const id of named) if (!inClass(plan).some(({ placements }) => placements.includes(id))) problems.push(`${id} is in no step of the class`);
  plan.pours.slice(1).forEach((pour, i) => {
    const below = plan.pours[i];
    const own = (kind: string) => plan.steps.filter((step) => step.kind === kind && step.pour === below.index);
    if (pour.route === 'wet-on-tacky') {
      if (pour.starts < below.opens || pour.ends > below.closes) problems.push(`pour ${pour.index} misses its window`);
      return;
    }
    const scuffed = own('scuff');
    if (scuffed.length === 0 || scuffed[0].from < below.scuffable) problems.push(`pour ${pour.index} is not scuffed after cure`);
    if (own('paint').some(({ from }) => from < below.paintable || from < scuffed[scuffed.length - 1].to)) problems.push(`pour ${below.index} is painted too soon`);
    if (own('dry').some(({ to }) => pour.starts < to)) problems.push(`pour ${pour.index} is on wet paint`);
    if (scuffed.some(({ to }) => pour.starts < to)) problems.push(`pour ${pour.index} is before its scuff is done`);
  });
  const { bench: { hours } } = document as { bench: { hours?: unknown } };
  if (hours === undefined) {
    for (const { kind, from, to, class: when } of plan.steps) {
      if (when === 'in' || (kind !== 'scuff' && kind !== 'paint' && kind !== 'pour')) continue;
      if (from.slice(11) < '08:00' || to.slice(11) > '20:00') problems.push(`${kind} at ${from} is outside bench hours`);
    }
  }
  return problems;
}

describe('a class', () => {
  it('paints what is ready by then, and the teacher pours before and after', () => {
    const document = taught({ at: '2026-05-08T10:00' });
    const plan = planOf(document);
    expect(plan.class).toMatchObject({ students: 6, paints: ['low'], sets: [], pours: null, pouredBefore: [1], pouredAfter: [2, 3] });
    expect(check(document, plan)).toEqual([]);
    const [painting] = inClass(plan);
    // Side by side: 2 h for all six, not 12.
    expect(minutesOf(painting.to) - minutesOf(painting.from)).toBe(120);
    // All the rest is for six molds: Σ of the pours' nets, each 100 × 80 × 6 mm or less the newt.
    expect(plan.copies).toBe(6);
    expect(plan.pours[0].mixMl).toBeCloseTo(6 * 48 * 1.05 + 8 * plan.pours[0].batches.length, 9);
  });

  it('sets a figure on the cured surface, dry, where nobody pours', () => {
    const document = taught({ youngest: 12 });
    const plan = planOf(document);
    expect(plan.class).toMatchObject({ paints: [], sets: ['newt'], pours: null, pouredBefore: [1, 2], pouredAfter: [3] });
    expect(check(document, plan)).toEqual([]);
    expect(inClass(plan).map(({ kind, text }) => [kind, text.includes('No resin is out')])).toEqual([['place', true]]);
    expect(plan.pours[2].starts >= plan.class!.to).toBe(true);
    expect(plan.class!.why.join(' ')).toContain('under 18');
  });

  it('gives each student a cup where they pour, and says what stands on the scale', () => {
    const plan = planOf(taught({ perStudent: { pour: true } }));
    expect(plan.class).toMatchObject({ sets: ['newt'], pours: 3, pouredAfter: [] });
    const pour = plan.pours[2];
    // One piece: 100 × 80 × 6 mm less the newt's 0.8 mL; 5 % spare; 8 mL in the cup.
    const oneMl = (48 - 0.8) * 1.05 + 8;
    expect(pour.batches).toHaveLength(6);
    for (const cup of pour.batches) expect(cup.mixMl).toBeCloseTo(oneMl, 9);
    expect(pour.mixMl).toBeCloseTo(6 * oneMl, 9);
    const step = inClass(plan).find(({ kind }) => kind === 'pour')!;
    for (const stop of pour.batches[0].scaleStopsG) expect(step.text.replace(/\u00a0/g, ' ')).toContain(`${stop.toFixed(1)} g`);
  });

  it('leaves a pour to the teacher that needs watching beyond the class, and says so', () => {
    const { class: told } = planOf(taught({ hours: 0.75, perStudent: { pour: true } }));
    expect(told!.pours).toBeNull();
    expect(told!.why.join(' ').replace(/\u00a0/g, ' ')).toContain('takes 60 min with its watch and the class is 45 min long');
  });

  it('leaves a pour to the teacher that is near to too much heat', () => {
    const document = { ...taught({ perStudent: { pour: true }, at: '2026-05-20T10:00' }), heat: { model: 'simulated' }, fillMm: 20, fills: [{ toMm: 20, formula: 'TL' }], room: { temperatureC: 23 } };
    const reading = readScene(document);
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    const heat = simulatedHeat([]);
    const begin = heat.begin;
    /** Everything near to too much: nine tenths of what is safe are passed. */
    const near = (soFar: ReturnType<typeof begin>): ReturnType<typeof begin> => ({ pour: (pour) => { const judged = soFar.pour(pour); return { ...judged, verdict: { ...judged.verdict, safeDepthMm: pour.depthMm * 1.05, harsher: true }, then: near(judged.then) }; } });
    const result = planScene(reading.scene, { meshes: new Map(), booleans: NO_BOOLEANS, heat: { ...heat, begin: (mold, room) => near(begin(mold, room)) } });
    if (!result.ok) throw new Error(JSON.stringify(result.problems));
    expect(result.plan.class!.pours).toBeNull();
    expect(result.plan.class!.why.join(' ')).toContain('near to too much heat');
  });

  it('says when something is ready where nothing is', () => {
    const { findings, class: told } = planOf(taught({ at: '2026-05-04T12:00' }, [plane('low', 6)]));
    expect(told).toMatchObject({ paints: [], sets: [], pours: null, firstReady: '2026-05-06T11:00' });
    expect(findings.find(({ code }) => code === 'class-not-ready')).toMatchObject({ severity: 'caution' });
  });

  it('warns of a room full of people, always', () => {
    for (const more of [{}, { perStudent: { pour: true } }, { youngest: 12 }]) {
      const found = planOf(taught(more)).findings.find(({ code }) => code === 'class-room')!;
      expect(found.severity).toBe('caution');
      expect(`${found.message} ${found.remedy}`).toMatch(/air.*gloves/s);
    }
  });

  it('keeps every window and drying on any day, seeds 0 to 39', () => {
    const next = mulberry32(11);
    const whole = (low: number, high: number) => low + Math.floor(next() * (high - low + 1));
    for (let seed = 0; seed < 40; seed++) {
      const document = taught(
        { students: whole(1, 12), at: `2026-05-${String(whole(5, 28)).padStart(2, '0')}T${String(whole(8, 18)).padStart(2, '0')}:00`, hours: whole(1, 4), youngest: whole(10, 30) },
        [...(next() < 0.7 ? [plane('low', 6, whole(1, 4))] : []), ...(next() < 0.5 ? [plane('high', 15, whole(1, 3))] : []), ...(next() < 0.6 ? [newt] : [])],
      );
      const plan = planOf(document);
      expect(check(document, plan), `seed ${seed}`).toEqual([]);
      if (plan.class!.paints.length + plan.class!.sets.length > 0) expect([...plan.class!.pouredBefore, ...plan.class!.pouredAfter]).toEqual(plan.pours.map(({ index }) => index));
    }
  });

  it.each([
    ['students', { students: 0 }, /^class\.students: found 0; expected a whole number from 1 to 100/],
    ['a time', { at: '2026-02-30T10:00' }, /^class\.at: found "2026-02-30T10:00"; expected a local time/],
    ['hours', { hours: 0 }, /^class\.hours: found 0; expected a number from 0\.25 to 24/],
    ['children who pour', { youngest: 15, perStudent: { pour: true } }, /^class\.perStudent\.pour: found true with a youngest of 15; expected false/],
    ['a plane there is none of', { perStudent: { paint: ['lily'] } }, /^class\.perStudent\.paint\[0\]: found "lily"; expected one of "low"/],
    ['a figure there is none of', { perStudent: { set: ['low'] } }, /^class\.perStudent\.set\[0\]: found "low"; expected one of "newt"/],
  ])('refuses %s that can’t be', (_what, more, message) => {
    expect(problemsOf(taught(more))[0]).toMatch(message);
  });

  it('refuses copies that are not the students’', () => {
    expect(problemsOf({ ...taught({}), copies: 4 })[0]).toMatch(/^copies: found 4; expected 6/);
  });

  it('has the molds ready before a pour that is the class’s own', () => {
    // The first pour of all, at the class's very beginning.
    const plan = planOf(taught({ youngest: 18, at: '2026-05-05T10:00', perStudent: { paint: [], set: [], pour: true } }));
    expect(plan.class!.pours).toBe(1);
    expect(plan.steps.filter(({ kind }) => kind === 'prepare').map((step) => step.class)).toEqual(plan.steps.filter(({ kind }) => kind === 'prepare').map(() => 'before'));
  });
});
