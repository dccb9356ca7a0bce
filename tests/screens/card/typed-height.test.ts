/** Typed heights: what a mold and its fill can't hold is refused in words; what they can is set. Expected values follow from the sizes set here. */
import { expect, test } from 'vitest';
import type { SceneFile } from '../../../src/core/scene/edit/file.ts';
import { thing } from '../../../src/core/scene/edit/things.ts';
import { typedHeight } from '../../../src/screens/card/typed-height.ts';

const file: SceneFile = {
  format: 'stillpool.scene', version: 1, name: 'Heights',
  mold: { shape: 'box', lengthMm: 100, widthMm: 80, heightMm: 60 },
  fillMm: 55, fills: [{ toMm: 55, formula: 'general' }],
  placements: [
    { id: 'p1', kind: 'plane', name: 'Reeds', atMm: 20 },
    { id: 'f1', kind: 'figure', name: 'Shell', shape: { type: 'sphere', radiusMm: 5 }, baseMm: 20 },
    { id: 'b1', kind: 'bed', name: 'Gravel', shape: { type: 'box', lengthMm: 100, widthMm: 80, heightMm: 8 }, baseMm: 0 },
  ],
};

test.each(['p1', 'f1', 'b1'])('%s can begin at the top of the resin and no higher', (id) => {
  const over = typedHeight(file, id, 70);
  expect(over.ok ? '' : over.reason).toMatch(/^Found 70\u00a0mm up; \w+ can begin no higher than 55\u00a0mm, where the resin ends\. Fill higher, or set it lower\.$/);
  expect(typedHeight(file, id, 55).ok).toBe(true);
});

test('below the floor only a bed may begin', () => {
  const under = typedHeight(file, 'p1', -5);
  expect(under.ok ? '' : under.reason).toBe('Found −5\u00a0mm up; Reeds can begin no lower than 0\u00a0mm, the floor.');
  expect(typedHeight(file, 'f1', -5).ok).toBe(false);
  expect(typedHeight(file, 'b1', -5).ok).toBe(true);
});

test('what can be had is set, and a figure on a plane goes with it', () => {
  const set = typedHeight(file, 'p1', 30, { riders: true });
  if (!set.ok) throw new Error(set.reason);
  expect(thing(set.file, 'p1')).toMatchObject({ atMm: 30 });
  expect(thing(set.file, 'f1')).toMatchObject({ baseMm: 30 });
});
