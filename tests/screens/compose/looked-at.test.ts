/** The copy to look at stands in the scene where the figure will be set, and nothing else of the scene changes. */
import { beforeAll, describe, expect, it } from 'vitest';
import { sceneFile } from '../../../src/core/scene/edit/file.ts';
import { sectionOf } from '../../../src/core/sheet/section.ts';
import { landingOf } from '../../../src/screens/compose/landing.ts';
import { LOOKED_AT, sceneWith, solidOf } from '../../../src/screens/compose/looked-at.ts';
import type { Derived, LookedAt } from '../../../src/store/piece-state.ts';
import { DEMO, derivedFrom } from '../../store/in-process.ts';
import { readFileSync } from 'node:fs';

/** A tetrahedron 30 mm long, 20 wide, 10 high, far from its file's origin. */
const LOOKED: LookedAt = { name: 'rock.stl', positions: Float32Array.of(100, 50, 7, 130, 50, 7, 100, 70, 7, 100, 50, 17), indices: Uint32Array.of(0, 2, 1, 0, 1, 3, 1, 2, 3, 2, 0, 3) };

describe('a mesh that is looked at before it is measured', () => {
  let derived: Derived;
  beforeAll(async () => {
    const answer = await derivedFrom(null);
    const reading = sceneFile(JSON.parse(readFileSync(DEMO, 'utf8')));
    if (!reading.ok) throw new Error('the demo can’t be read');
    const solids = answer.solids.map((solid) => ({ ...solid, ...answer.forms.get(solid.form)!, turnZDeg: 0 }));
    derived = { ...answer, document: reading.file, solids, section: sectionOf({ scene: answer.scene, pours: answer.plan.pours, silhouettes: answer.silhouettes }) };
  });

  it('stands where a figure of its size is set in', () => {
    const scene = sceneWith(derived.document, derived, LOOKED);
    expect(scene.placements.slice(0, -1)).toEqual(derived.scene.placements);
    const guest = scene.placements.at(-1)!;
    const { xMm, yMm, baseMm } = landingOf(derived.document, derived, [30, 20, 10]);
    expect(guest).toMatchObject({ id: LOOKED_AT, name: 'rock.stl', xMm, yMm, baseMm });
    expect(solidOf(LOOKED)).toMatchObject({ id: LOOKED_AT, positions: LOOKED.positions, indices: LOOKED.indices });
  });
});
