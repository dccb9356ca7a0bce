/** Flood coats: each face lies up in its turn; mixed, weighed and timed as a pour is, poured in bench hours and awake. */
import { momentAfter, roomAt } from '../../cure/equivalent-time.ts';
import { warmedMixC } from '../../cure/mixed-at.ts';
import { mixOf } from '../../resin/formula.ts';
import type { Finishing, Formula, Scene } from '../../scene/scene.ts';
import { downToMinute, formatLocalTime, MINUTES_PER_HOUR, upToMinute } from '../../units/time.ts';
import type { HeatJudge } from '../heat-judge.ts';
import { mixFor, type Mixed } from '../mix.ts';
import type { FloodCoat } from '../plan.ts';
import { handsMin } from '../runs/run.ts';
import type { Pace } from '../schedule.ts';
import { awakeFit } from '../sleep.ts';
import type { FaceAt } from './faces.ts';
import { wholeMinutes } from './hours.ts';

const MM3_PER_ML = 1000;
const MM2_PER_CM2 = 100;
/** A face lies at least so long before the piece is turned (trade: 12 to 24 h each, common practice). */
const LEAST_LYING_MIN = 12 * MINUTES_PER_HOUR;
/** A pour that takes longer is planned again with what it takes. */
const ROUNDS = 4;

/** A coat with its moments, minutes. */
export interface CoatAt {
  readonly coat: FloodCoat;
  readonly startsMin: number;
  readonly endsMin: number;
  /** When the piece can be turned. */
  readonly firmMin: number;
  readonly hardMin: number;
  /** No start was found in which nobody sleeps there. */
  readonly inSleep: boolean;
}

export interface CoatRequest {
  readonly scene: Scene & { readonly finishing: Finishing };
  readonly pace: Pace;
  readonly heat: HeatJudge | null;
  readonly index: number;
  readonly face: FaceAt;
  /** From when it may be poured. */
  readonly fromMin: number;
}

/** The formula that coats. Reading has seen that it is there. */
export function coatFormula({ formulas, finishing }: Pick<CoatRequest['scene'], 'formulas' | 'finishing'>): Formula {
  return formulas.get(finishing.coat.formula)!;
}

/** A face’s coat at its first bench moment; null where it fits no stretch of bench hours with its watching. */
export function coatAt(request: CoatRequest): CoatAt | null {
  const { scene, pace, face, index, fromMin } = request;
  const { bench, finishing, room } = scene;
  const formula = coatFormula(scene);
  const watchMin = bench.watchH * MINUTES_PER_HOUR;
  let handMin = wholeMinutes((finishing.hours.coat ?? bench.pourH) * MINUTES_PER_HOUR);
  for (let round = 1; ; round++) {
    const after = (from: number, hours: number) => momentAfter(room, from, hours, formula.atC);
    const found = awakeFrom(pace, fromMin, handMin + watchMin, (startsMin) => after(startsMin + handMin, formula.bondOpensH));
    if (found === null) return null;
    const { startsMin, inSleep } = found;
    const mixed = mixedFor(request, formula, startsMin);
    const neededMin = wholeMinutes(handsMin(mixed));
    if (neededMin > handMin && round < ROUNDS) {
      handMin = neededMin;
      continue;
    }
    const endsMin = startsMin + handMin;
    const firmMin = upToMinute(Math.max(after(endsMin, formula.demoldH), endsMin + LEAST_LYING_MIN));
    const hardMin = Math.max(firmMin, upToMinute(after(endsMin, formula.fullCureH)));
    const coat: FloodCoat = {
      index, face: face.face, formula: formula.id, thicknessMm: finishing.coat.mm, areaCm2: face.areaMm2 / MM2_PER_CM2, netMl: netMlOf(request), ...mixed,
      starts: formatLocalTime(startsMin), ends: formatLocalTime(endsMin),
      opens: formatLocalTime(upToMinute(after(endsMin, formula.bondOpensH))), closes: formatLocalTime(downToMinute(after(startsMin, formula.bondClosesH))),
      scuffable: formatLocalTime(upToMinute(after(endsMin, formula.scuffableH))), firm: formatLocalTime(firmMin), hard: formatLocalTime(hardMin),
    };
    return { coat, startsMin, endsMin, firmMin, hardMin, inSleep };
  }
}

/** The first start that fits and leaves nothing liquid while someone sleeps there; where there is none, the first that fits. */
export function awakeFrom(pace: Pace, fromMin: number, lengthMin: number, doneAfter: (startsMin: number) => number): { readonly startsMin: number; readonly inSleep: boolean } | null {
  const awake = awakeFit(pace, doneAfter)(lengthMin, fromMin);
  const startsMin = awake ?? pace.calendar.fit(lengthMin, fromMin);
  return startsMin === null ? null : { startsMin, inSleep: awake === null };
}

function netMlOf({ face, scene }: CoatRequest): number {
  return (face.areaMm2 * scene.finishing.coat.mm) / MM3_PER_ML;
}

function mixedFor(request: CoatRequest, formula: Formula, startsMin: number): Mixed {
  const { scene } = request;
  const { bench, run, room } = scene;
  return mixFor({ netMl: netMlOf(request), formula, mix: mixOf(formula), bench, tintPercent: 0, run, roomC: roomAt(room, startsMin), mixC: warmedMixC(scene, startsMin), heat: request.heat });
}
