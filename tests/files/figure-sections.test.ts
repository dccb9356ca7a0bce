/** Our own figures cut at random turns, against manifold-3d's sections of the same meshes and against their profiles. */
import { expect, it } from 'vitest';
import { openFigureLibrary } from '../../src/cli/library.ts';
import { regionArea, regionPerimeter } from '../../src/core/sight/region.ts';
import { poseSolid } from '../../src/core/solid/pose.ts';
import { sliceable } from '../../src/core/solid/section.ts';
import { readMesh } from '../../src/files/mesh/read.ts';
import { manifold, seeded } from '../core/solid/oracle.ts';

/** mm² and mm as shares of the size: the library takes 32-bit corners, 1e-7 of the size apart, along outlines some sizes long. */
const AREA_SHARE = 3e-6;
const LENGTH_SHARE = 1e-4;
/** Relative to the squared size: sums over some thousand corners. */
const ROUNDING = 1e-11;
const SECTIONS = 5;

const library = openFigureLibrary();

it.each(library.names.map((name, n) => [name, 80 + n] as const))('%s, seed %i', async (name, seed) => {
  const random = seeded(seed);
  const found = (await library.read(name))!;
  const mesh = await readMesh(found.bytes, found.file);
  const shape = { type: 'library', name } as const;
  const turnDeg = [360 * random(), 360 * random(), 360 * random()] as const;
  const pose = { xMm: 12, yMm: -30, baseMm: 7, turnDeg, scale: 0.5 + random() };
  const solid = poseSolid(shape, pose, mesh);
  const sections = sliceable({ shape, turnDeg, scale: pose.scale, mesh }).placed(pose);
  expect(sections.bounds).toEqual(solid.bounds);
  const { positions, indices } = solid.mesh();
  const { Manifold, Mesh } = await manifold();
  // About its own middle, where 32 bits are finest.
  const local = Float32Array.from(positions, (at, i) => at - [pose.xMm, pose.yMm, pose.baseMm][i % 3]);
  const theirs = Manifold.ofMesh(new Mesh({ numProp: 3, vertProperties: local, triVerts: indices.slice() }));
  const tall = solid.bounds.max[2] - solid.bounds.min[2];
  const size = Math.max(...[0, 1, 2].map((d) => solid.bounds.max[d] - solid.bounds.min[d]));
  for (let n = 0; n < SECTIONS; n++) {
    const up = tall * (0.03 + 0.94 * random());
    const ours = sections.at(pose.baseMm + up);
    const slice = theirs.slice(up);
    const loops = slice.toPolygons().map((loop) => Float64Array.from(loop.flat()));
    slice.delete();
    expect(Math.abs(regionArea(ours) - solid.profile.areaAt(pose.baseMm + up))).toBeLessThan(ROUNDING * size ** 2);
    expect(Math.abs(regionArea(ours) - regionArea(loops)), `${up} mm up`).toBeLessThan(AREA_SHARE * size ** 2);
    expect(Math.abs(regionPerimeter(ours) - regionPerimeter(loops)), `${up} mm up`).toBeLessThan(LENGTH_SHARE * size);
  }
  theirs.delete();
});
