import { describe, expect, it } from 'vitest';
import type { SceneFile } from '../../../src/core/scene/edit/file.ts';
import { plainProblem } from '../../../src/screens/shared/plain-problem.ts';

/** Expected words by hand: what the person called a thing stands for its place in the document. */
const FILE = {
  placements: [{ id: 'p1', kind: 'plane', name: 'Lily shadows', atMm: 20 }, { id: 'f1', kind: 'figure', shape: { type: 'sphere', radiusMm: 5 } }],
  formulas: [{ id: 'deep', family: 'deep-pour', name: 'My deep resin' }],
} as unknown as SceneFile;
const words = (path: string): string => plainProblem({ path, message: 'found 3; expected 4.' }, FILE);

describe('what is in the way of planning', () => {
  it.each([
    ['bench.hours', 'Bench hours: found 3; expected 4.'],
    ['placements[0].atMm', 'Lily shadows: found 3; expected 4.'],
    ['placements[1].shape', 'f1: found 3; expected 4.'],
    ['formulas[0].maxDepthMm', 'My deep resin: found 3; expected 4.'],
    ['mold.cornerRadiusMm', 'Mold: found 3; expected 4.'],
    ['fills[2].toMm', 'Resin: found 3; expected 4.'],
    ['', 'Found 3; expected 4.'],
  ])('names %s as the person does', (path, expected) => expect(words(path)).toBe(expected));

  it.each(['plan.pins[0]', 'bench.pourH', 'room.profile[1].from', 'placements[9].atMm', 'elsewhere.unheardOf'])('never shows the path %s', (path) => expect(words(path)).not.toContain(path));
});
