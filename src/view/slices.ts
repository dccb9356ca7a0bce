/** Long work done in slices between frames, so that no frame waits for it. */

/** Work in one go, ms. */
const A_SLICE_MS = 8;

/** Runs the steps to their end, then `done`, all in tasks of their own. Gives what stops it. */
export function inSlices<T>(steps: Generator<void, T>, done: (result: T) => void): () => void {
  const work = (): void => {
    const until = performance.now() + A_SLICE_MS;
    for (;;) {
      const step = steps.next();
      if (step.done) {
        timer = setTimeout(() => done(step.value), 0);
        return;
      }
      if (performance.now() > until) break;
    }
    timer = setTimeout(work, 0);
  };
  let timer = setTimeout(work, 0);
  return () => clearTimeout(timer);
}
