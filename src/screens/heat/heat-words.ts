/** A pour's heat in the artist's words: how warm, what is safe, why, and what would help with what it comes to then. */
import { causeWords, roomLimit, safeDepth, warmest } from '../../core/plan/heat-words.ts';
import { isHot, isNear } from '../../core/plan/hot.ts';
import type { Pour, PourHeat } from '../../core/plan/plan.ts';
import type { Formula, Mold } from '../../core/scene/scene.ts';
import { capital, mm } from '../../core/units/format.ts';

/** How near a pour is to too much, from its safe depth. */
export type Nearness = 'within' | 'near' | 'over';

export function nearness({ heat, depthMm }: Pick<Pour, 'heat' | 'depthMm'>): Nearness | null {
  if (heat === null) return null;
  return isHot(heat, depthMm) ? 'over' : isNear(heat, depthMm) ? 'near' : 'within';
}

/** `Warm, 34 to 48 °C at its warmest, after about 6 h.` */
export function verdictLine(heat: PourHeat): string {
  return `${capital(warmest(heat))}.`;
}

/** What is safe there and why, and the room that would be too much. */
export function safeLine({ heat, why }: { readonly heat: PourHeat; readonly why: string }, formula: Pick<Formula, 'maxDepthMm'>, mold: Mold): string {
  const label = mm(formula.maxDepthMm);
  // Nothing below the label: the label's own depth stands.
  if (heat.safeDepthMm >= formula.maxDepthMm) return `Safe to the label’s ${label}. ${roomLimit(heat)}`;
  const cause = causeWords(heat.cause, mold);
  // The pour's reason has said it already.
  return why.includes(cause) ? `Safe to ${safeDepth(heat)}. ${roomLimit(heat)}` : `${safeDepth(heat)} are safe here, not the label’s ${label}: ${cause}. ${roomLimit(heat)}`;
}

/** Both ends of what the label leaves open are far apart: what that means, and the way to know more. */
export const CANT_BE_TOLD = 'The label leaves this open. A test cup of this resin tells more.';

/** Said once, over the pours. */
export const ABOUT_HEAT =
  'Heat is reckoned from the label, so it is always a range. It can only make the plan more careful: never deeper, sooner or warmer than a label allows. We know of no published, complete measurement of an unfilled resin curing in a room to hold it against; a test cup of your own is the honest way to know more.';
