/** Where a curing network gels. Where it turns to glass is softening.ts's. */

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
