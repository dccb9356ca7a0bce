/** Planes that come along when a creature is built deeper, and go back. */
import { describe, expect, it } from 'vitest';
import { setPlanes } from '../../../src/core/scene/edit/creature.ts';
import { sceneFile, type SceneFile } from '../../../src/core/scene/edit/file.ts';
import { setLocked } from '../../../src/core/scene/edit/keep.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import { planesOn, reachingPlanes, type Stance } from '../../../src/screens/planes/slicing.ts';

const opened = sceneFile({
  format: 'stillpool.scene', version: 1, mold: { shape: 'box', lengthMm: 120, widthMm: 80, heightMm: 60 }, fillMm: 55, fills: [{ toMm: 55, formula: 'g' }],
  formulas: [{ id: 'g', ratioByVolume: [2, 1], maxDepthMm: 20, minDepthMm: 3, refractiveIndex: 1.55 }],
  placements: [14, 22, 30].map((atMm, i) => ({ id: `p${i}`, kind: 'plane', name: `Carp ${i + 1}`, atMm, slices: ['c'] })),
  creatures: [{ id: 'c', name: 'Carp', shape: { type: 'sphere', radiusMm: 12 }, baseMm: 10 }],
});
if (!opened.ok) throw new Error('the scene was refused');
const { file } = opened;
const AS_IT_IS: Stance = { bottomMm: 10, tallMm: 24 };
/** 24 mm that are to look so deep in n 1.55 (acceptance case 11). */
const DEEPER: Stance = { bottomMm: 10, tallMm: 37.2 };

function moved(from: SceneFile, stance: Stance): readonly number[] | null {
  const reading = readScene(from);
  if (!reading.ok) throw new Error('the scene can no longer be read');
  return reachingPlanes(from, 'c', { scene: reading.scene, stance });
}

function at(heights: readonly number[]): SceneFile {
  const result = setPlanes(file, 'c', heights);
  if (!result.ok) throw new Error(result.reason);
  return result.file;
}

describe('planes of a creature that is built deeper', () => {
  it('stay where they go through all of it', () => expect(moved(file, AS_IT_IS)).toBeNull());

  it('come along, as many, evenly: 37.2 mm in three, half a third left at the ends; then nothing more is asked', () => {
    const heights = moved(file, DEEPER)!;
    [16.2, 28.6, 41].forEach((mm, i) => expect(heights[i]).toBeCloseTo(mm, 2));
    const along = at(heights);
    expect(planesOn(along, 'c').map(({ id }) => id)).toEqual(['p0', 'p1', 'p2']);
    expect(moved(along, DEEPER)).toBeNull();
    // And back, once it is built as it is.
    const back = moved(along, AS_IT_IS)!;
    [14, 22, 30].forEach((mm, i) => expect(back[i]).toBeCloseTo(mm, 2));
  });

  it('a single one too', () => {
    expect(moved(at([22]), AS_IT_IS)).toBeNull();
    expect(moved(at([22]), DEEPER)![0]).toBeCloseTo(28.6, 2);
  });

  it('that are locked are not offered to', () => {
    const locked = setLocked(file, ['p1'], true);
    expect(locked.ok && moved(locked.file, DEEPER)).toBeNull();
  });
});
