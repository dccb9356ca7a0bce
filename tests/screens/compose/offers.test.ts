/** Everything the choosers offer can be set in any mold, and lies in it. */
import { describe, expect, it } from 'vitest';
import type { SceneFile } from '../../../src/core/scene/edit/file.ts';
import { newPiece } from '../../../src/core/scene/edit/new-piece.ts';
import { addBed, addFigure } from '../../../src/core/scene/edit/place.ts';
import { poseSolid } from '../../../src/core/solid/pose.ts';
import { bedOffers, shapeOffers } from '../../../src/screens/compose/offers.ts';

const molds = [
  { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60 },
  { shape: 'box', lengthMm: 20, widthMm: 12, heightMm: 6 },
  { shape: 'round', diameterMm: 150, heightMm: 60 },
  { shape: 'round', diameterMm: 900, heightMm: 12 },
] as const;

describe.each(molds)('in a $shape mold $heightMm mm high', (mold) => {
  const made = newPiece({ seen: 'above', keep: false, mold });
  if (!made.ok) throw new Error(made.reason);
  const file: SceneFile = made.file;

  it.each(shapeOffers(file))('$words fits under the resin', ({ shape }) => {
    const result = addFigure(file, { shape });
    expect(result.ok).toBe(true);
    const { bounds } = poseSolid(shape, { xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1 });
    expect(bounds.max[2]).toBeLessThanOrEqual(file.fillMm);
  });

  it.each(bedOffers(file).filter(({ shape }) => shape.type !== 'library'))('$words reaches from wall to wall', ({ shape, name }) => {
    expect(addBed(file, { shape, name }).ok).toBe(true);
    const { bounds } = poseSolid(shape, { xMm: 0, yMm: 0, baseMm: 0, turnDeg: [0, 0, 0], scale: 1 });
    expect(bounds.max[0] - bounds.min[0]).toBe(mold.shape === 'box' ? mold.lengthMm : mold.diameterMm);
    expect(bounds.max[2]).toBeLessThan(file.fillMm);
  });
});
