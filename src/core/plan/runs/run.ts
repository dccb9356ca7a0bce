/**
 * Several copies of a piece made at once: they are poured side by side from shared cups, and what takes hands
 * takes as many times as long. A plan's heights and volumes stay those of one piece; its mixes are for all.
 */
import type { Scene } from '../../scene/scene.ts';
import { MINUTES_PER_HOUR } from '../../units/time.ts';
import { counted, listed, plain } from '../../units/format.ts';
import type { Finding, PlanResult, Pour } from '../plan.ts';

/** Each round can only lengthen the pours; cups hardly change from one to the next. */
const MOST_ROUNDS = 4;
/** Sums of minutes carry noise far below this. */
const ROUNDING_MIN = 1e-9;

/** Plans a run: scuffing and painting once for each copy, and pours as long as the longest takes to mix and share out. */
export function planRun(scene: Scene, plan: (scene: Scene) => PlanResult): PlanResult {
  if (scene.run.copies === 1) return plan(scene);
  let pourH = scene.bench.pourH;
  for (let round = 1; ; round++) {
    const result = plan(atPace(scene, pourH));
    if (!result.ok) return result;
    const neededH = Math.max(...result.plan.pours.map(handsMin)) / MINUTES_PER_HOUR;
    if (neededH <= pourH + ROUNDING_MIN || round === MOST_ROUNDS) return result;
    pourH = neededH;
  }
}

/** Minutes at the bench for a pour: its cups one after the other. */
export function handsMin({ batches }: Pick<Pour, 'batches'>): number {
  return batches.reduce((sum, { workMin }) => sum + (workMin ?? 0), 0);
}

export function atPace(scene: Scene, pourH: number): Scene {
  const { copies } = scene.run;
  return {
    ...scene,
    bench: { ...scene.bench, pourH, scuffH: scene.bench.scuffH * copies },
    placements: scene.placements.map((placement) => (placement.kind === 'plane' ? { ...placement, paintH: placement.paintH * copies } : placement)),
  };
}

/** A cup that thickens before it is shared out. */
export function runFindings({ run }: Scene, pours: readonly Pour[]): Finding[] {
  if (run.copies === 1) return [];
  const slow = pours.filter(({ batches: [{ workMin, usableMin }] }) => workMin !== null && workMin > usableMin + ROUNDING_MIN);
  if (slow.length === 0) return [];
  const [{ batches: [first] }] = slow;
  const which = slow.length === 1 ? `Pour ${slow[0].index}` : `Pours ${listed(slow.map(({ index }) => String(index)))}`;
  return [
    {
      code: 'cup-too-slow',
      severity: 'halt',
      subject: slow.length === 1 ? `pour ${slow[0].index}` : 'pours',
      message: `${which}: a cup takes ${counted(Math.ceil(first.workMin!), 'minute')} to mix and pour and stays usable for ${plain(Math.floor(first.usableMin), 0)}.`,
      remedy: 'Pour fewer at once, in a cooler room, or choose a slower formula.',
      pours: slow.map(({ index }) => index),
    },
  ];
}
