/** Why a pour of a chosen goal's plan is as it is: how its layer is cut, in which formula, where its line lies, when it starts. */
import type { PlanGoal } from '../../scene/scene.ts';
import { mm, plain } from '../../units/format.ts';
import { weekdayAndTime } from '../../units/when.ts';
import type { Planned, PlannedPour } from '../context.ts';
import { NUMBER_WORDS, PLACE_WORDS } from '../number-words.ts';
import { paceOf } from '../schedule.ts';
import { latestOnTacky } from './latest.ts';

/** A bed's edge hides a line this near to it, mm. */
const EDGE_MM = 0.25;
/** Pins typed in decimals carry noise far below this, mm. */
const SAME_MM = 1e-6;

const BEST: Readonly<Record<Exclude<PlanGoal, 'even'>, string>> = {
  fewest: 'the fewest that go',
  soonest: 'so that the piece is done soonest',
  coolest: 'so that none is deeper for its formula than it must be',
  cheapest: 'which costs least',
};

function bestAt({ goal, heat }: Planned): string {
  return goal === 'coolest' && heat ? 'so that no pour gets warmer than it must' : BEST[goal as Exclude<PlanGoal, 'even'>];
}

/** Sentences, the fact first. For every goal but the even plan. */
export function goalReasons(planned: Planned, pour: PlannedPour): string[] {
  return [cutReason(planned, pour), formulaReason(planned, pour), lineReason(planned, pour), timeReason(planned, pour)].filter(Boolean);
}

function cutReason(planned: Planned, { part, formulaUsed, limitMm }: PlannedPour): string {
  const within = limitMm < formulaUsed.maxDepthMm ? `the ${mm(limitMm)} that are safe here` : `the label’s ${mm(formulaUsed.maxDepthMm)}`;
  if (part.pours === 1) return `Within ${within}.`;
  const count = NUMBER_WORDS[part.pours] ?? String(part.pours);
  if (part.place > 1) return `${PLACE_WORDS[part.place] ?? `Pour ${part.place}`} of ${count}.`;
  return `${mm(part.depthMm, 2)} in ${count} pours, each within ${within}, ${bestAt(planned)}.`;
}

function formulaReason(planned: Planned, pour: PlannedPour): string {
  const { asked } = planned.layers[pour.layer - 1];
  if (pour.part.place > 1 || asked === undefined || asked === pour.formula) return '';
  return `${pour.formulaUsed.name} instead of what its fill names, ${bestAt(planned)}.`;
}

function lineReason({ scene, solids }: Planned, { toMm, layerAt }: PlannedPour): string {
  if (toMm === layerAt.toMm) return '';
  if (scene.plan.pinsMm.some((pin) => Math.abs(pin - toMm) <= SAME_MM)) return `You asked for a line at ${plain(toMm, 2)}.`;
  const edge = solids.find(({ placement, solid }) => placement.kind === 'bed' && solid !== null && Math.abs(solid.bounds.max[2] - toMm) <= EDGE_MM);
  return edge ? `Its line lies at the edge of ${edge.placement.name}, where it shows least.` : '';
}

/** Why it starts when it does, where that was chosen. */
function timeReason({ scene, pours, schedule }: Planned, { index, route, latestStart, starts, layerAt }: PlannedPour): string {
  if (route === 'wet-on-tacky' && latestStart !== null) {
    return latestStart === starts ? 'It starts at the last moment at which the pour below is still tacky.' : `Start it by ${weekdayAndTime(latestStart)}: later the pour below has to cure and be scuffed.`;
  }
  const below = pours[index - 2];
  if (route !== 'cure-scuff-wipe' || !below || below.layerAt !== layerAt) return '';
  if (below.closes <= below.opens || below.opens >= starts) return '';
  if (latestOnTacky(paceOf(scene), schedule.pours[index - 2]) === null) return `The pour below cures first: no pour fits your hours while it is tacky, ${weekdayAndTime(below.opens)} to ${weekdayAndTime(below.closes)}.`;
  return `The pour below cures first: waiting for that serves the goal better than ${scene.room.sleep ? 'its window, or someone would sleep there while this one sets' : 'its window'}.`;
}
