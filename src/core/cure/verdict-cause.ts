/**
 * Why a pour is as warm as it is: each harsh circumstance is taken away in turn and the pour solved again, for the
 * member that asks for the least depth. What gives back the most depth is the cause.
 */
import { inPlace, memberAt, type BuildContext, type Trial } from './build-run.ts';
import { depthBorne, type DepthAsked, type Ready } from './safe-depth.ts';
import { labelCooling, sectionOf, type Cooling } from './situation.ts';
import { startStack } from './stack.ts';
import { FAMILY_STACK, hastened } from './family-anchor.ts';
import type { BuildPour, HeatCause } from './verdict-types.ts';

/** What gives back less of the depth than a search finds it to is noise. */
const TELLING_SHARE = 0.002;
/** A ratio under this is none. */
const LEAST_RATIO = 0.02;
/** A pour deeper than its mold is wide by this is that of a tall narrow mold. */
const NARROW = 1;
/** The wide mold it is held against: as wide as this times its depth. */
const WIDE = 4;

export interface CauseAsked {
  readonly context: BuildContext;
  /** The cautious member, and whether anything lies below the pour. */
  readonly ready: Ready;
  readonly onPours: boolean;
  readonly pour: BuildPour;
  readonly trial: Trial;
  readonly asked: DepthAsked;
  /** Of the label's depth, for this member. */
  readonly ratio: number;
  readonly harsher: boolean;
  /** In its words. */
  readonly cool: boolean;
}

export function causeOf(asked: CauseAsked): HeatCause {
  const { pour, ratio, harsher, cool } = asked;
  // A pour that keeps cool has no one to blame.
  const ofItself = (): HeatCause => (!cool && isNarrow(asked) ? 'narrow mold' : 'depth');
  if (!harsher) return ofItself();
  const without = withoutEach(asked).map(([cause, share]): [HeatCause, number] => [cause, share / Math.max(ratio, LEAST_RATIO)]);
  const [cause, gain] = without.reduce((best, one) => (one[1] > best[1] ? one : best), ['depth', 0]);
  if (pour.depthMm / pour.formula.maxDepthMm > gain) return ofItself();
  // Where one thing alone is harsher than the label's, it is the cause however little it gives back.
  return gain > 1 + TELLING_SHARE || without.length === 1 ? cause : ofItself();
}

/** Share of the label's depth that the member bears when one thing is as the label has it. */
function withoutEach({ ready: { ground, pour: member }, onPours, pour, trial, asked }: CauseAsked): [HeatCause, number][] {
  const { atC, maxDepthMm } = pour.formula;
  const share = ({ here = trial, cooling = member.cooling, fresh = false }: { here?: Trial; cooling?: Cooling; fresh?: boolean }): number => {
    const { topHWPerM2K, bottomHWPerM2K } = cooling;
    const below = fresh ? startStack({ room: here.room, topHWPerM2K, bottomHWPerM2K }, FAMILY_STACK) : inPlace(ground, here, cooling);
    return depthBorne({ ground: below, pour: { ...member, cooling } }, { ...asked, trial: here }, { mostMm: maxDepthMm, fromMm: maxDepthMm }) / maxDepthMm;
  };
  const roomC = trial.room[0].temperatureC;
  const causes: [HeatCause, number][] = [];
  if (trial.room.some(({ temperatureC }) => temperatureC > atC)) causes.push([pour.room && roomC <= atC ? 'curing box' : 'room', share({ here: { ...trial, mixC: trial.mixC - Math.max(0, roomC - atC), room: [{ fromS: trial.atS, temperatureC: atC }] } })]);
  const label = labelCooling(memberAt(member.family, member.place));
  if (member.cooling.bottomHWPerM2K < label.bottomHWPerM2K) causes.push(['insulating wall', share({ cooling: { ...member.cooling, bottomHWPerM2K: label.bottomHWPerM2K } })]);
  if (onPours) causes.push(['warm layer below', share({ fresh: true })]);
  if (trial.mixC > Math.max(roomC, atC)) causes.push(['warm bottles', share({ here: { ...trial, mixC: Math.max(roomC, atC) } })]);
  if (member.family.hastenedBy > 1) causes.push(['cup', depthBorne({ ground, pour: { ...member, law: hastened(member.law, 1 / member.family.hastenedBy) } }, asked, { mostMm: maxDepthMm, fromMm: maxDepthMm }) / maxDepthMm]);
  return causes;
}

/** Deeper than wide, and cooler by being spread: the same amount in a mold four times as wide as it is then deep. */
function isNarrow({ context, pour }: CauseAsked): boolean {
  const { areaMm2 } = sectionOf(context.mold);
  const widthMm = Math.sqrt(areaMm2);
  const spreadMm = Math.cbrt((areaMm2 * pour.depthMm) / (WIDE * WIDE));
  return pour.depthMm > NARROW * widthMm && spreadMm < pour.depthMm;
}
