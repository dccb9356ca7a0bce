/** The simulation of heat, in one piece: the worker fetches it when a scene first asks for it. */
export { beginBuild } from '../core/cure/verdict.ts';
export { simulatedHeat } from '../core/plan/heat-simulated.ts';
