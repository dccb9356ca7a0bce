/** Why a pour is there, in bench words: the fact first, then where it stops. */
import { counted, listed, mm, plain } from '../units/format.ts';
import { formatLocalTime } from '../units/time.ts';
import { dayAndTime } from '../units/when.ts';
import { nameOf, type Planned, type PlannedPour } from './context.ts';
import { goalReasons } from './best/reasons.ts';
import { causeWords, safeDepth } from './heat-words.ts';
import { fillAt } from './layers.ts';
import { firstPour, paceOf, pourOn } from './schedule.ts';
import { nightOver } from './sleep.ts';
import { fewestPours } from './split.ts';
import { NUMBER_WORDS, PLACE_WORDS } from './number-words.ts';

/** `Within the label’s 25 mm. Stops at 20, where Lily shadows is painted.` */
export function whyOf(planned: Planned, pour: PlannedPour): string {
  const reasons = planned.goal === 'even' ? [limitReason(planned, pour)] : goalReasons(planned, pour);
  return [...reasons, lockReason(planned, pour), stopReason(planned, pour), sleepReason(planned, pour)].filter(Boolean).join(' ');
}

function limitReason({ scene, pours }: Planned, pour: PlannedPour): string {
  const { part, formulaUsed, depthMm, locking, heat, stuck } = pour;
  const label = `the label’s ${mm(formulaUsed.maxDepthMm)}`;
  const lowered = heat !== null && heat.safeDepthMm < formulaUsed.maxDepthMm;
  if (part.pours === 1) {
    if (locking || stuck) return '';
    return lowered ? `Within the ${safeDepth(heat)} that are safe here; ${label} would be too much: ${causeWords(heat.cause, scene.mold)}.` : `Within ${label}.`;
  }
  const count = NUMBER_WORDS[part.pours] ?? String(part.pours);
  if (part.place > 1) return `${PLACE_WORDS[part.place] ?? `Pour ${part.place}`} of ${count}.`;
  const split = `so it is ${count} pours of ${mm(depthMm, 2)}.`;
  if (pour.limitMm === formulaUsed.maxDepthMm) return `${mm(part.depthMm)} is over ${label}, ${split}`;
  // Which pour of the layer asks for the split: the one whose safe depth is least.
  const inLayer = pours.filter(({ layer }) => layer === pour.layer);
  const leastPour = inLayer.reduce((a, b) => (b.heat!.safeDepthMm < a.heat!.safeDepthMm ? b : a));
  const least = leastPour.heat!;
  const because = causeWords(least.cause, scene.mold);
  if (inLayer.some(({ stuck: deep }) => deep)) return `${mm(part.depthMm)} in ${count} pours of ${mm(depthMm, 2)}, and still too warm: ${because}.`;
  const own = heat !== null && fewestPours(part.depthMm, heat.safeDepthMm) >= part.pours;
  // What is safe for a later pour depends on those below it: of the layer poured at once it says nothing.
  if (!own) return `${mm(part.depthMm)} in fewer pours would be too warm: for pour ${leastPour.index} only ${safeDepth(least)} are safe, because ${because}. So it is ${count} pours of ${mm(depthMm, 2)}.`;
  return `${mm(part.depthMm)} at once would be too warm here, where ${safeDepth(heat)} are safe and ${label} are not: ${causeWords(heat.cause, scene.mold)}. So it is ${count} pours of ${mm(depthMm, 2)}.`;
}

function lockReason({ scene, solids, unlockable }: Planned, { locks }: PlannedPour): string {
  const held = locks.filter((id) => !unlockable.includes(id));
  if (held.length === 0) return '';
  const shallowest = Math.min(...solids.filter((solid) => held.includes(solid.placement.id)).map((solid) => solid.safeLockMm!));
  const names = listed(held.map((id) => nameOf(scene, id)));
  return `Locks ${names}. Over ${mm(Math.floor(shallowest * 10) / 10)} deep ${held.length > 1 ? 'they' : 'it'} could float.`;
}

function stopReason({ scene, pours }: Planned, pour: PlannedPour): string {
  if (pour.toMm !== pour.layerAt.toMm) return pour.locking ? `Stops at ${plain(pour.toMm)} and waits.` : '';
  const causes = pour.layerAt.stops.map(({ kind, id }) => {
    if (kind === 'plane') return `${nameOf(scene, id!)} is painted`;
    if (kind === 'figure') return `${nameOf(scene, id!)} is set down`;
    if (kind === 'fill') return fillChange(scene, pour, pours[pour.index]);
    return scene.cast === 'face-up' ? 'the show face is' : 'the back is';
  });
  return `Stops at ${plain(pour.toMm)}, where ${listed(causes)}.`;
}

function fillChange(scene: Planned['scene'], pour: PlannedPour, next: PlannedPour | undefined): string {
  if (next && next.formula !== pour.formula) return `${next.formulaUsed.name} begins`;
  const above = next && fillAt(scene, (next.fromMm + next.toMm) / 2).tint;
  return above ? 'the tint changes' : 'the fill changes';
}

/** Where it waits for someone's sleep to be over. */
function sleepReason({ scene, schedule, startMin }: Planned, { index, formulaUsed }: PlannedPour): string {
  const pace = paceOf(scene);
  if (!pace.nights) return '';
  const { starts, opens, label, before } = schedule.pours[index - 1];
  const heedless = { ...pace, nights: null };
  const next = { formula: formulaUsed, planes: before.planes };
  const soonest = index === 1 ? firstPour(heedless, next, startMin)! : pourOn(heedless, schedule.pours[index - 2], next)!;
  const night = nightOver(pace.nights, soonest.starts, soonest.opens + opens - label.opens);
  return night && soonest.starts < starts ? `Begun sooner, on ${dayAndTime(formatLocalTime(soonest.starts))}, it would be liquid while someone sleeps in the room.` : '';
}

/** `one cup`, `2 cups`. */
export function cups(count: number): string {
  return count === 1 ? 'one cup' : counted(count, 'cup');
}
