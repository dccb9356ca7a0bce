/** The search for other plans than the even one: the worker fetches it when a piece first asks for it. */
export { GOAL_SEARCH } from '../core/plan/best/goal-search.ts';
