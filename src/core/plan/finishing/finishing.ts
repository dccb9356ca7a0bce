/**
 * What is done to a piece once it is cured, one thing after the other on the person’s own calendar: a warm rest, trimming,
 * the rest until it is hard, edges, sanding face by face, flood coats, polish, a base. Work is in bench hours; rests go on.
 */
import { momentAfter } from '../../cure/equivalent-time.ts';
import type { Family, Finishing, Formula } from '../../scene/scene.ts';
import { formatLocalTime, MINUTES_PER_HOUR, upToMinute } from '../../units/time.ts';
import type { Span } from '../bench-calendar.ts';
import type { Planned } from '../context.ts';
import type { Finding, FinishingPlan, FinishWork, PlanResult, StepKind } from '../plan.ts';
import { paceOf, type Pace } from '../schedule.ts';
import { awakeFrom, coatAt, type CoatAt } from './coats.ts';
import { facesOf, worksOf, type FaceAt, type FaceName, type FaceWork } from './faces.ts';
import { coatFindings, coatHalt, faceFindings, marginFindings, wantedFindings, warmFindings } from './findings-finish.ts';
import * as words from './finish-words.ts';
import { handsOf } from './hours.ts';
import { roomWith, warmLimit, warmStages, warmthOf, type WarmStage } from './warm-rest.ts';
import { GOES_ON, demold } from '../step-words.ts';

const MM2_PER_CM2 = 100;
/** Full hardness takes at least these days at its label’s temperature, whatever the label says (trade: common practice, no source), hours. */
const LEAST_REST_H: Readonly<Record<Family, number>> = { general: 72, 'low-viscosity': 168, coating: 72, 'deep-pour': 168, uv: 0 };
/** To put the piece in its box and set the thermostat, minutes (from memory). */
const SET_UP_MIN = 15;
/** Glue under a base of wood or with lights, minutes (from memory). */
const GLUE_MIN = 24 * MINUTES_PER_HOUR;

export interface FinishStep {
  readonly kind: StepKind;
  readonly span: Span;
  readonly text: string;
  readonly finishing: { readonly work: FinishWork; readonly face: FaceName | FaceWork['group'] | null };
}

export interface Finished {
  readonly plan: FinishingPlan;
  readonly steps: readonly FinishStep[];
  readonly findings: readonly Finding[];
}

/** The finish of a planned piece, from its `finish` on; or why a coat fits no bench hours. Null: the scene asks for none. */
export function finishingOf(planned: Planned): Finished | Extract<PlanResult, { ok: false }> | null {
  const { finishing } = planned.scene;
  return finishing ? finished({ ...planned, scene: { ...planned.scene, finishing } }, finishing) : null;
}

type PlannedFinish = Planned & { readonly scene: Planned['scene'] & { readonly finishing: Finishing } };

function finished(planned: PlannedFinish, finishing: Finishing): Finished | Extract<PlanResult, { ok: false }> {
  const { scene, schedule, heat } = planned;
  const { mold, fillMm, run, bench } = scene;
  const pace = paceOf(scene);
  const { calendar } = pace;
  const faces = facesOf(scene, schedule.after.planes.length > 0);
  const works = worksOf(faces);
  const hands = handsOf(finishing, { mold, fillMm, works });
  const steps: FinishStep[] = [];
  let now = schedule.finish;
  let handsMin = 0;
  const rest = (until: number, text: string, work: FinishWork, face: FinishStep['finishing']['face'] = null) => {
    if (until > now) steps.push({ kind: 'wait', span: { from: now, to: until }, text, finishing: { work, face } });
    now = Math.max(now, until);
  };
  const doing = (minutes: number, text: string, work: FinishWork, face: FinishStep['finishing']['face'] = null) => {
    if (minutes === 0) return;
    const spans = calendar.place(minutes * run.copies, now);
    spans.forEach((span, i) => steps.push({ kind: 'finish', span, text: i === 0 ? text : GOES_ON, finishing: { work, face } }));
    handsMin += minutes * run.copies;
    now = upToMinute(spans[spans.length - 1].to);
  };
  const moment = (kind: StepKind, text: string, work: FinishWork) => steps.push({ kind, span: { from: now, to: now }, text, finishing: { work, face: null } });

  const warm = warmRest(planned, pace, now);
  const room = roomWith(scene.room, warm?.stages ?? []);
  if (warm) {
    now = warm.fromMin;
    steps.push({ kind: 'finish', span: { from: now, to: now + SET_UP_MIN }, text: words.warmSetUp(warm.stages, mold), finishing: { work: 'warm', face: null } });
    handsMin += SET_UP_MIN;
    now += SET_UP_MIN;
    rest(warm.stages[warm.stages.length - 1].toMin, words.WARM_WAIT, 'warm');
  }
  if (!mold.keep) moment('demold', demold(planned), 'demold');
  doing(hands.trim, words.trim(mold, { warmed: warm !== null }), 'trim');
  const ends = planned.pours.map(({ formulaUsed, index }) => ({ formulaUsed, endsMin: schedule.pours[index - 1].ends }));
  rest(Math.max(...ends.map(({ formulaUsed, endsMin }) => upToMinute(momentAfter(room, endsMin, restH(formulaUsed), formulaUsed.atC)))), words.REST, 'rest');
  doing(hands.edges, words.edges(finishing), 'edges');
  const firstSanded = works.findIndex(({ grits }) => grits.length > 0);
  works.forEach((work, i) => doing(hands.sand[i], words.sand(work, { first: i === firstSanded }), 'sand', work.group));

  const coats: { readonly made: CoatAt; readonly face: FaceAt; readonly step: number }[] = [];
  for (const face of faces.filter(({ finish }) => finish === 'flood-coat')) {
    if (coats.length > 0) rest(coats[coats.length - 1].made.firmMin, '', 'harden', coats[coats.length - 1].face.face);
    const made = coatAt({ scene, pace, heat, index: coats.length + 1, face, fromMin: now });
    if (made === null) return noHours(finishing.hours.coat ?? bench.pourH, bench.watchH);
    coats.push({ made, face, step: steps.length });
    steps.push({ kind: 'finish', span: { from: made.startsMin, to: made.endsMin }, text: '', finishing: { work: 'coat', face: face.face } });
    handsMin += made.endsMin - made.startsMin;
    now = made.endsMin;
  }
  if (coats.length > 0) rest(Math.max(...coats.map(({ made }) => made.hardMin)), '', 'harden', coats[coats.length - 1].face.face);
  works.forEach((work, i) => doing(hands.polish[i], words.polish(work), 'polish', work.group));
  doing(hands.base, words.base(finishing), 'base');
  if (finishing.base === 'wood' || finishing.base === 'light') rest(now + GLUE_MIN, words.GLUE, 'base');
  moment('finish', words.DONE, 'done');

  const made = coats.map((each) => each.made);
  const own = coatFindings(planned, made);
  const halt = coatHalt(planned, own);
  const told = steps.map((step, at) => {
    const coat = coats.find((each) => each.step === at);
    if (coat) return { ...step, text: words.coat(coat.made.coat, coat.face, { scene, halt }) };
    if (step.finishing.work !== 'harden') return step;
    const lying = coats.findIndex(({ face }) => face.face === step.finishing.face);
    return { ...step, text: words.harden(coats[lying].made.coat, coats[lying].face, { last: lying === coats.length - 1 }) };
  });
  const ready = formatLocalTime(now);
  const first: FinishStep = { kind: 'finish', span: { from: schedule.finish, to: schedule.finish }, text: words.begins(ready), finishing: { work: 'begins', face: null } };
  return {
    plan: {
      ready,
      faces: works.map(({ group, words: name, finish, areaMm2, grits }) => ({ face: group, name, finish, areaCm2: areaMm2 / MM2_PER_CM2, grits, polish: finish === 'polished' })),
      coats: made.map(({ coat }) => coat),
      coatHalt: halt,
      warmRest: warm ? { temperatureC: warm.temperatureC, from: formatLocalTime(warm.stages[0].fromMin), to: formatLocalTime(warm.stages[warm.stages.length - 1].toMin) } : null,
      handsH: handsMin / MINUTES_PER_HOUR,
    },
    steps: [first, ...told],
    findings: [...faceFindings(scene), ...marginFindings(planned, faces), ...(finishing.postCure ? warmFindings(scene, warmLimit(scene, finishing.postCure), { warmC: warm?.temperatureC ?? null, inSleep: warm?.inSleep ?? false }) : []), ...own, ...wantedFindings(planned, now)],
  };
}

function restH({ fullCureH, family }: Formula): number {
  return Math.max(fullCureH, LEAST_REST_H[family]);
}

/** When the box is set up, and its stages; null where none is asked for or borne. */
function warmRest({ scene, schedule }: PlannedFinish, pace: Pace, fromMin: number): { readonly temperatureC: number; readonly fromMin: number; readonly stages: readonly WarmStage[]; readonly inSleep: boolean } | null {
  const { postCure } = scene.finishing;
  const temperatureC = postCure ? warmthOf(postCure, warmLimit(scene, postCure)) : null;
  if (!postCure || temperatureC === null) return null;
  // Every pour must be strong enough to be handled, also where the piece stays in its mold.
  const from = Math.max(fromMin, ...schedule.pours.map(({ demold: strong }) => strong));
  const stagesFrom = (startsMin: number) => warmStages(scene.room, startsMin + SET_UP_MIN, { temperatureC, hours: postCure.hours });
  const found = awakeFrom(pace, from, Math.min(SET_UP_MIN, pace.calendar.longestMin), (startsMin) => stagesFrom(startsMin).at(-1)!.toMin);
  return found && { temperatureC, fromMin: found.startsMin, stages: stagesFrom(found.startsMin), inSleep: found.inSleep };
}

function noHours(coatH: number, watchH: number): Extract<PlanResult, { ok: false }> {
  return { ok: false, problems: [{ path: 'finishing.hours.coat', message: `found no ${coatH + watchH} h at a stretch; expected at least one stretch of bench hours that long, for a flood coat and its watching. Lengthen the bench hours, or shorten the coat.` }] };
}
