/** Thrown through a planning: its turn is over, or it asks for what nobody has time for now. */
export class HeatPause extends Error {}
