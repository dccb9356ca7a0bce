/** A class on paper: what is done before it, in it and after it, marked on every step; and what a room full of people asks for. */
import { LEAST_AGE } from '../../scene/read-class.ts';
import type { Scene } from '../../scene/scene.ts';
import { counted, grams, listed, ml } from '../../units/format.ts';
import { dayAndTime } from '../../units/when.ts';
import { doNotPour } from '../halts.ts';
import type { ClassPlan, Finding, Pour, Step } from '../plan.ts';
import { meetingWords } from './class.ts';

const HANDS: readonly Step['kind'][] = ['paint', 'place', 'pour'];

/** Steps with where they stand to the class; each student’s own amounts on what they pour. */
export function classSteps(scene: Scene, { told, pours, findings }: { readonly told: ClassPlan; readonly pours: readonly Pour[]; readonly findings: readonly Finding[] }, steps: readonly Step[]): Step[] {
  if (isIdle(told)) return [...steps];
  const sets = told.sets.length > 0 && told.pours === null ? [setStep(scene, told)] : [];
  const marked = steps.map((step): Step => {
    const when = whenOf(told, step);
    if (step.kind === 'place' && told.pours === null) {
      const left = step.placements.filter((id) => !told.sets.includes(id));
      if (left.length < step.placements.length && left.length === 0) return { ...step, class: when, text: `After the class: check that what the students set down stands where it should. ${step.text}` };
    }
    const mine = when === 'in' && step.kind === 'pour' ? ownCup(scene, told, pours, findings) : '';
    return { ...step, class: when, text: `${WHEN[when]}${mine}${step.text}` };
  });
  return [...marked, ...sets].sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));
}

const WHEN = { before: 'Before the class: ', in: 'In the class, each student: ', after: 'After the class: ' } as const;

function whenOf({ at, to, pours, paints }: ClassPlan, { kind, from, pour, placements }: Step): 'before' | 'in' | 'after' {
  const theirs = kind === 'paint' ? placements.some((id) => paints.includes(id)) : pours !== null && pour === pours;
  if (from >= at && from < to && HANDS.includes(kind) && theirs) return 'in';
  // What is made ready for a pour that is the class's own stands at its moment, and is done before it all the same.
  return from < at || (from === at && (kind === 'prepare' || kind === 'place')) ? 'before' : 'after';
}

function setStep({ placements }: Scene, { at, to, sets, pouredAfter }: ClassPlan): Step {
  const names = sets.map((id) => placements.find((placement) => placement.id === id)?.name ?? id);
  return { kind: 'place', pour: pouredAfter[0] ?? null, placements: sets, from: at, to, class: 'in', text: `${WHEN.in}Set ${listed(names)} in place on the cured, wiped surface, dry, with clean gloves. No resin is out.` };
}

function ownCup({ formulas, bench }: Scene, { students, pours: index }: ClassPlan, pours: readonly Pour[], findings: readonly Finding[]): string {
  const pour = pours.find((one) => one.index === index)!;
  if (doNotPour(findings, pour.index) !== null) return '';
  const each = pour.batches.length / students;
  const [cup] = pour.batches;
  return `${each === 1 ? 'a cup' : counted(each, 'cup')} of their own, ${ml(cup.mixMl)} of ${formulas.get(pour.formula)?.name ?? pour.formula}: stop the scale at ${cup.scaleStopsG.map((stop) => grams(stop, bench.scaleG)).join(', then ')}. All together: `;
}

/** Lines for plain text. */
export function classLines(scene: Scene, told: ClassPlan): string[] {
  const named = (ids: readonly string[]) => listed(ids.map((id) => scene.placements.find((placement) => placement.id === id)?.name ?? id));
  const does = [
    ...(told.paints.length > 0 ? [`paints ${named(told.paints)}`] : []),
    ...(told.sets.length > 0 ? [`sets ${named(told.sets)}`] : []),
    ...(told.pours !== null ? [`pours pour ${told.pours} from a cup of their own`] : []),
  ];
  const pours = (list: readonly number[]) => (list.length === 0 ? 'nothing is poured' : `${list.length === 1 ? 'pour' : 'pours'} ${listed(list.map(String))}`);
  return [
    `${meetingWords(told)}, ${counted(told.students, 'student')}: ${does.length > 0 ? `each ${listed(does)}.` : 'nothing is ready for them.'}`,
    ...(does.length > 0 ? [`Before it: ${pours(told.pouredBefore)}. After it: ${pours(told.pouredAfter)}.`] : []),
    ...told.why,
  ];
}

export function classFindings({ class: meeting }: Scene, told: ClassPlan): Finding[] {
  const idle: Finding = {
    code: 'class-not-ready',
    severity: 'caution',
    subject: 'class',
    message: `Nothing is ready for the class on ${meetingWords(told)}. ${told.why.join(' ')}`.trim(),
    remedy: told.firstReady ? `The first surface is ready on ${dayAndTime(told.firstReady)}: hold the class then or later, or begin earlier.` : 'Give it a plane to paint or a figure to set that fits its hours.',
  };
  const room: Finding = {
    code: 'class-room',
    severity: 'caution',
    subject: 'class',
    message: `${counted(told.students, 'student')} in one room with resin: air has to move across the benches to outside all the time, and gloves, sleeves and eye protection have to fit everyone.`,
    remedy: `${told.pours === null ? 'Mix and pour only when they are out; let them in once it has cured. ' : 'Small cups, one at a time on the scale, nobody left alone with one; a metal tray outside the door. '}${(meeting?.youngest ?? LEAST_AGE) < LEAST_AGE ? `Nobody under ${LEAST_AGE} mixes or touches resin that has not cured. ` : ''}No food; pregnant or asthmatic, ask a doctor first. Label every mold.`,
  };
  return isIdle(told) ? [idle, room] : [room];
}

function isIdle({ paints, sets, pours }: ClassPlan): boolean {
  return paints.length === 0 && sets.length === 0 && pours === null;
}
