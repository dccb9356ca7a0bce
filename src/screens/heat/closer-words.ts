/** What a look in three dimensions says beside the plan's one dimension. It never makes anything less careful. */
import type { BodyHeat } from '../../core/cure/body/body.ts';
import { roomAt } from '../../core/cure/equivalent-time.ts';
import { warmth } from '../../core/plan/heat-words.ts';
import type { Plan, Pour } from '../../core/plan/plan.ts';
import type { Scene, SolidPlacement } from '../../core/scene/scene.ts';
import { mm, plain, span } from '../../core/units/format.ts';
import { parseLocalTime } from '../../core/units/time.ts';

/** Between the two ways of reckoning this little is nothing, K. */
const SAME_K = 1;
/** A pour of which the resin cools the moment it stands has no peak of its own, K over the room. */
const NO_RISE_K = 0.5;

export interface CloserPour {
  readonly pour: Pour;
  /** Warmer in three dimensions than in one, K; negative: cooler. */
  readonly warmerK: number;
  /** The plan's range, moved where three dimensions are warmer, °C. */
  readonly rangeC: readonly [number, number];
  readonly words: string;
}

/** Of each pour, with the same resin in both: `hottestC` is what one dimension has. */
export function closerPours(scene: Scene, plan: Plan, { pours }: Pick<BodyHeat, 'pours'>, hottestC: readonly number[]): readonly CloserPour[] {
  return plan.pours.flatMap((pour, i) => {
    const { heat } = pour;
    if (!heat || !pours[i]) return [];
    const { temperatureC, atS, place } = pours[i].hottest;
    const warmerK = temperatureC - hottestC[i];
    const roomC = roomAt(scene.room, parseLocalTime(pour.starts)!);
    const factor = hottestC[i] > roomC + NO_RISE_K ? Math.max(1, (temperatureC - roomC) / (hottestC[i] - roomC)) : 1;
    const rangeC = heat.rangeC.map((c) => Math.max(c, roomC + (c - roomC) * factor)) as unknown as readonly [number, number];
    const sinceMin = atS / 60 - (parseLocalTime(pour.starts)! - parseLocalTime(plan.pours[0].starts)!);
    const where = `Warmest ${mm(Math.max(0, place[2]))} up, after about ${span(Math.max(0, sinceMin))}.`;
    return [{ pour, warmerK, rangeC, words: `${comparison(warmerK, rangeC, heat.rangeC)} ${where}` }];
  });
}

function comparison(warmerK: number, rangeC: readonly [number, number], plannedC: readonly [number, number]): string {
  if (warmerK >= SAME_K) return `${plain(warmerK)}\u00a0°C warmer than the plan’s ${warmth(plannedC)}: count on ${warmth(rangeC)}.`;
  if (warmerK <= -SAME_K) return `${plain(-warmerK)}\u00a0°C cooler than the plan’s ${warmth(plannedC)}; the plan stays as careful as it is.`;
  return `As warm as the plan reckons, ${warmth(plannedC)}.`;
}

export interface CloserFigure {
  readonly name: string;
  /** It may get warmer than it stands. */
  readonly over: boolean;
  readonly words: string;
}

/** Of each figure and bed, in the order they were given. */
export function closerFigures({ placements }: Scene, { solids }: Pick<BodyHeat, 'solids'>): readonly CloserFigure[] {
  const castIn = placements.filter((placement): placement is SolidPlacement => placement.kind !== 'plane');
  return solids.flatMap(({ solid, hottest, surfaceC }) => {
    const placement = castIn[solid];
    if (!placement || !Number.isFinite(hottest.temperatureC)) return [];
    const { name, limitC } = placement;
    const skin = Number.isFinite(surfaceC) && hottest.temperatureC - surfaceC > SAME_K ? `, ${plain(surfaceC, 0)}\u00a0°C at its surface` : '';
    const over = limitC !== undefined && hottest.temperatureC > limitC;
    return [{ name, over, words: `about ${plain(hottest.temperatureC, 0)}\u00a0°C with a resin from the middle of what the labels allow${skin}${over ? `: it stands ${plain(limitC)}\u00a0°C` : ''}` }];
  });
}
