/** How well a label's depth is known: told by a verdict's range and by its chart alike. */

/**
 * How well the depth that a label's heat stands for is known, times or over: a prototype narrowed the rate of heat to
 * ×/÷1.4 (physics §10), and the depth of a given peak goes with the inverse square root of the rate.
 */
export const DEPTH_DOUBT = Math.sqrt(1.4);
