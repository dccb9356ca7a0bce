/** Cups that several pieces are poured from at once: the arithmetic of a run of copies, for molds that differ. */
import { roomAt } from '../../cure/equivalent-time.ts';
import { warmedMixC } from '../../cure/mixed-at.ts';
import { mixOf } from '../../resin/formula.ts';
import { upToMinute } from '../../units/time.ts';
import type { HeatJudge } from '../heat-judge.ts';
import { mixFor, type Mixed } from '../mix.ts';
import type { PartAmount } from '../plan.ts';
import type { Piece } from './piece.ts';
import { handsMin } from './run.ts';

/** Sums of minutes carry noise far below this. */
const ROUNDING_MIN = 1e-9;

/** A pour of a piece, both counted from 0. */
export interface Member {
  readonly piece: number;
  readonly pour: number;
}

export interface SharedMix {
  /** All of it: its cups are equal, and mixed once. */
  readonly mixed: Mixed;
  /** Minutes from the first cup to the last mold, at least the longest pour of a member. */
  readonly pourMin: number;
}

/**
 * Shared cups of pours of one key, or null where they can't be shared: a cup would thicken, or get hot, before it is poured
 * out. `judges` are the members' own, null for one under the label model; the strictest counts.
 */
export function sharedMix(pieces: readonly Piece[], members: readonly Member[], { startsMin, judges }: { readonly startsMin: number; readonly judges: readonly (Pick<HeatJudge, 'cup'> | null)[] }): SharedMix | null {
  const jobs = members.map(({ piece, pour }) => pieces[piece].jobs[pour]);
  const { scene } = pieces[members[0].piece];
  const { formula } = jobs[0];
  const molds = jobs.reduce((sum, job) => sum + job.molds, 0);
  const neededMl = jobs.reduce((sum, job) => sum + job.neededMl, 0);
  const mixes = judges.map((heat) => mixFor({
    netMl: (neededMl / molds) * (1 - formula.shrinkageFraction),
    formula,
    mix: mixOf(formula),
    bench: { ...scene.bench, allowanceFraction: 0 },
    tintPercent: jobs[0].tintPercent,
    run: { ...scene.run, copies: molds },
    roomC: roomAt(scene.room, startsMin),
    mixC: warmedMixC(scene, startsMin),
    heat,
  }));
  if (mixes.some(({ batches: [cup] }) => cup.workMin! > cup.usableMin + ROUNDING_MIN || cup.heat?.hot)) return null;
  const mixed = mixes.reduce((a, b) => (b.batches[0].usableMin < a.batches[0].usableMin ? b : a));
  const pourMin = Math.max(...members.map(({ piece }) => pieces[piece].pace.pourMin), upToMinute(handsMin(mixed)));
  return { mixed, pourMin };
}

/** A member’s part of what is mixed, in proportion to what it needs. */
export function shareOf({ mixed }: SharedMix, pieces: readonly Piece[], members: readonly Member[], member: Member): Omit<Mixed, 'batches'> {
  const needed = ({ piece, pour }: Member) => pieces[piece].jobs[pour].neededMl;
  const share = needed(member) / members.reduce((sum, one) => sum + needed(one), 0);
  const part = ({ ml, g }: PartAmount): PartAmount => ({ ml: ml * share, g: g * share });
  return { mixMl: mixed.mixMl * share, mixG: mixed.mixG * share, partA: part(mixed.partA), partB: part(mixed.partB) };
}
