/** Where a curing network gels, and where it turns to glass. */

export interface Network {
  /** Reacting groups of one molecule of each kind: 4 for a diamine, 2 for a diepoxide. */
  readonly groupsF: number;
  readonly groupsG: number;
  /** Groups in shortage per group in excess, up to 1. */
  readonly ratio: number;
}

/**
 * Conversion of the groups in shortage at which the network gels: 1/√(r (f−1)(g−1)) (Flory; Stockmayer 1943; Odian,
 * Principles of Polymerization). Above 1: it never does.
 */
export function gelConversion({ groupsF, groupsG, ratio }: Network): number {
  return 1 / Math.sqrt(ratio * (groupsF - 1) * (groupsG - 1));
}

export interface GlassCurve {
  /** Glass transition of the mix and of the fully cured resin. */
  readonly uncuredC: number;
  readonly curedC: number;
  /** How far the curve sags between: ratio of the steps in heat capacity. */
  readonly lambda: number;
}

/** Glass transition at a conversion (DiBenedetto, in the form of Pascault & Williams 1990). */
export function glassTransitionC({ uncuredC, curedC, lambda }: GlassCurve, alpha: number): number {
  return uncuredC + ((curedC - uncuredC) * lambda * alpha) / (1 - (1 - lambda) * alpha);
}

/** Conversion at which the glass transition reaches a temperature: there room-warm resin stops curing. The inverse of the above. */
export function vitrifiedConversion({ uncuredC, curedC, lambda }: GlassCurve, temperatureC: number): number {
  const share = (temperatureC - uncuredC) / (curedC - uncuredC);
  return share / (lambda + (1 - lambda) * share);
}
