/**
 * What would help a pour that is too deep or near it, each way with what it comes to: the pour is judged again with it.
 * A way that leaves it too deep, or too thin to level, is none.
 */
import { completeFormula } from '../resin/formula.ts';
import { trialOf, type Trial } from './build-run.ts';
import { assess, type Standing } from './verdict-assess.ts';
import type { BuildPour, Fix, FixKind, PourVerdict } from './verdict-types.ts';

/** Pours that one is split into at most, as a remedy. */
const MOST_PARTS = 12;
/** Quotients of decimals carry noise far below this. */
const ROUNDING = 1e-9;
/** Waits that are tried, h. */
const WAITS_H = [4, 8, 12, 24, 48] as const;
/** A room is asked for this much cooler than would be too much, in whole degrees, and none is asked for that no resin cures in. */
const COOLER_BY_C = 1;
const LEAST_ROOM_C = 15;
/** A wait has to give back this share of the depth. */
const WORTH_WAITING = 0.02;

export function fixesOf(standing: Standing, pour: BuildPour, { trial, verdict }: { trial: Trial; verdict: PourVerdict }): Fix[] {
  const fixes: Fix[] = [];
  const tried = (kind: FixKind, amount: number | string, words: string, changed: { pour?: BuildPour; trial?: Trial }): Fix => {
    const { safeDepthMm, rangeC, words: heat } = assess(standing, changed.pour ?? pour, changed.trial ?? trial);
    return { kind, amount, words, after: { safeDepthMm, rangeC, words: heat } };
  };
  const helps = ({ after }: Fix, depthMm: number) => after.safeDepthMm >= depthMm;

  const mostParts = Math.min(MOST_PARTS, Math.floor(pour.depthMm / pour.formula.minDepthMm + ROUNDING));
  for (let parts = Math.max(2, Math.ceil(pour.depthMm / Math.max(verdict.safeDepthMm, 1e-6))); parts <= mostParts; parts++) {
    const depthMm = pour.depthMm / parts;
    const fix = tried('split', parts, `Make it ${parts} pours of ${shown(depthMm)}\u00a0mm.`, { pour: { ...pour, depthMm }, trial: { ...trial, depthMm } });
    if (!helps(fix, depthMm)) continue;
    fixes.push(fix);
    break;
  }
  // When it goes into a box after a wait is not known here.
  if (verdict.harsher && !pour.room) {
    for (const hours of WAITS_H) {
      const later = { ...pour, fromMin: pour.fromMin + 60 * hours };
      const fix = tried('wait', hours, `Wait ${hours}\u00a0h longer before it.`, { pour: later, trial: trialOf(standing.context, later) });
      if (fix.after.safeDepthMm < Math.max(pour.depthMm, verdict.safeDepthMm + WORTH_WAITING * pour.formula.maxDepthMm)) continue;
      fixes.push(fix);
      break;
    }
  }
  const roomC = Math.floor(verdict.tooWarmRoomC - COOLER_BY_C);
  if (roomC >= LEAST_ROOM_C && roomC < (pour.room ? trial.room[0].temperatureC : Math.max(...trial.room.map(({ temperatureC }) => temperatureC)))) {
    const cooler: Trial = { ...trial, mixC: Math.min(trial.mixC, roomC), room: [{ fromS: trial.atS, temperatureC: roomC }] };
    const fix = tried('cool', roomC, `Keep the room at ${roomC} °C until it has cooled.`, { trial: cooler });
    if (helps(fix, pour.depthMm)) fixes.push(fix);
  }
  const formula = completeFormula({ id: 'deep-pour' });
  if (pour.formula.family !== 'deep-pour' && pour.depthMm >= formula.minDepthMm) {
    const other = { ...pour, formula, family: standing.context.familyOf(formula) };
    const fix = tried('formula', formula.id, 'Pour a deep-pour resin here.', { pour: other });
    if (helps(fix, pour.depthMm)) fixes.push(fix);
  }
  return fixes;
}

function shown(mm: number): string {
  return String(Number(mm.toPrecision(mm < 10 ? 2 : 3)));
}
