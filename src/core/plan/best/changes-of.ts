/** Which small changes are looked for in a plan, with what they would save. */
import type { Scene } from '../../scene/scene.ts';
import type { Planned } from '../context.ts';
import { planesOn } from '../slices.ts';
import { driesLonger, latestStart, longerDay, longerEvenings, quickDrying } from './changes.ts';
import type { GoalSearch } from './goal-search.ts';
import { replanning, type ReplanOf } from './replan.ts';

/** What small changes would save, and what a wanted finish leaves. */
export function changesOf(scene: Scene, { compare = false, search }: { readonly compare?: boolean; readonly search?: GoalSearch }, of: Omit<ReplanOf, 'search'>): Pick<Planned, 'quickDrying' | 'longerDay' | 'longerEvenings' | 'wanted'> {
  const { laid, floor, startMin } = of;
  const finishMin = laid.schedule.finish;
  const replan = replanning(scene, { ...of, search: search ?? null });
  const planes = [...floor, ...laid.pours.flatMap(({ slice }) => planesOn(scene, slice))];
  const { readyByMin } = scene.bench;
  const oneDay = compare ? longerDay(scene, { startMin, finishMin }, replan) : null;
  return {
    quickDrying: planes.some(({ dryH }) => driesLonger(dryH)) ? quickDrying(scene, replan) : null,
    longerDay: oneDay,
    longerEvenings: compare ? longerEvenings(scene, oneDay?.savedMin ?? 0, replan) : null,
    wanted: readyByMin === undefined ? null : { readyByMin, finishMin, latestStartMin: finishMin > readyByMin ? null : latestStart(scene, { startMin, readyByMin }, replan) },
  };
}
