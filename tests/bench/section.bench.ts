/**
 * Sections as chained polygons against manifold-3d's slice of the same solid at the same heights, in the same run. One
 * seeded closed mesh of a million triangles; the index that sections are cut from is there already, as the library's is.
 */
import { regionArea, type Region } from '../../src/core/sight/region.ts';
import { meshProfile } from '../../src/core/solid/profile.ts';
import { meshSections } from '../../src/core/solid/section-mesh.ts';
import { posed, torus } from '../core/solid/made-meshes.ts';
import { manifold, seeded } from '../core/solid/oracle.ts';
import type { BenchRow } from './rows.ts';

const SEED = 2003;
const SECTIONS = 40;
const ROUNDS = 7;
/** mm² as a share of the squared height: the library's sections come of 32-bit corners and a grid of 1e-8 mm. */
const SAME_SHARE = 1e-5;

export async function sectionBench(): Promise<BenchRow[]> {
  const mesh = posed(torus(1000, 500, 40, 14, 0.5), seeded(SEED), 1, [0, 0, 0]);
  const profile = meshProfile(mesh);
  const spanMm = profile.topMm - profile.bottomMm;
  const heights = Array.from({ length: SECTIONS }, (_, k) => profile.bottomMm + (spanMm * (k + 0.5)) / SECTIONS);
  const cut = meshSections(profile.index);
  const library = await manifold();
  const solid = library.Manifold.ofMesh(new library.Mesh({ numProp: 3, vertProperties: Float32Array.from(mesh.positions), triVerts: mesh.indices.slice() }));
  const theirs = (): Region[] =>
    heights.map((z) => {
      const section = solid.slice(z);
      const loops = section.toPolygons().map((loop) => Float64Array.from(loop.flat()));
      section.delete();
      return loops;
    });
  const ours = (): Region[] => heights.map(cut);
  const sameSections = theirs().every((section, n) => Math.abs(regionArea(section) - regionArea(cut(heights[n]))) < SAME_SHARE * spanMm ** 2);
  if (!sameSections) throw new Error('sections differ from the library’s');
  // Turn about, so that whatever else the machine does meets both.
  const times = Array.from({ length: ROUNDS }, () => [cpuMs(ours), cpuMs(theirs)] as const);
  solid.delete();
  const [oursMs, theirsMs] = [0, 1].map((who) => times.map((round) => round[who]).sort((a, b) => a - b)[Math.floor(ROUNDS / 2)]);
  return [{ name: `${SECTIONS} sections of 1M triangles, chained, against the library’s slice: times faster, at least`, ours: oursMs, baseline: theirsMs, ratio: theirsMs / oursMs, aim: 4, unit: 'ms' }];
}

/** Processor time, which waiting for other work does not lengthen. */
function cpuMs(work: () => unknown): number {
  const before = process.cpuUsage();
  work();
  const { user, system } = process.cpuUsage(before);
  return (user + system) / 1000;
}
