/** No verdict is looser than the label, for any label: 100 here, 1,000 in the bench. */
import { describe, expect, it } from 'vitest';
import { labelFlaw } from './label-property.ts';

/** Ten each, so that a slow machine tells which. */
const TENS = Array.from({ length: 10 }, (_, i) => [1 + 10 * i, 10 + 10 * i] as const);

describe('a random label is never hot in its own situation at its own depth, and no verdict is looser than it', () => {
  it.each(TENS)('seeds %i to %i', (from, to) => {
    for (let seed = from; seed <= to; seed++) expect(labelFlaw(seed), `seed ${seed}`).toBeNull();
  });
});
