/** Where the view looks for it; the worker makes lighter copies too. */
export { lighterCopy, lighterSteps, type DrawnMesh } from '../core/solid/lighter.ts';
