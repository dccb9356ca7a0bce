/**
 * The displacement profile against manifold-3d trimming the same solid at the same heights, and against a sort.
 * One seeded closed mesh of a million triangles; everything in one run on one machine.
 */
import { meshProfile } from '../../src/core/solid/profile.ts';
import type { Profile, TriangleMesh } from '../../src/core/solid/solid.ts';
import { directVolumeBelow } from '../core/solid/direct-sum.ts';
import { posed, torus } from '../core/solid/made-meshes.ts';
import { manifold, seeded } from '../core/solid/oracle.ts';
import type { BenchRow } from './rows.ts';

const SEED = 2003;
const SPANS = 20;
const ROUNDS = 7;
/** The baseline takes a second a span: each span once. */
const BASELINE_ROUNDS = 1;

export async function profileBench(): Promise<BenchRow[]> {
  const mesh = posed(torus(1000, 500, 40, 14, 0.5), seeded(SEED), 1, [0, 0, 0]);
  const profile = meshProfile(mesh);
  const heights = Array.from({ length: SPANS + 1 }, (_, k) => profile.bottomMm + ((profile.topMm - profile.bottomMm) * k) / SPANS);

  const buildMs = median(ROUNDS, () => meshProfile(mesh));
  const spansMs = median(ROUNDS, () => spansOf(profile, heights));
  const bothMs = median(ROUNDS, () => spansOf(meshProfile(mesh), heights));
  const sortMs = median(ROUNDS, sortingLowest(mesh));
  const trimmed = await trimming(mesh, heights);
  const difference = Math.max(
    ...heights.slice(1).map((z) => Math.abs(profile.volumeBelow(z) - directVolumeBelow(mesh, z))),
    ...spansOf(profile, heights).map((span, k) => (Math.abs(span - trimmed.spans[k]) > TRIM_SHARE * profile.volumeMm3 ? Infinity : 0)),
  );
  const meshBytes = mesh.positions.byteLength + mesh.indices.byteLength;
  const buildBytes = meshBytes + allocatedBy(() => meshProfile(mesh));
  return [
    faster('profile of 1M triangles, build and 20 spans, against trimming them: times faster, at least', bothMs, trimmed.ms, 80),
    faster('one span of a built profile, against trimming it: times faster, at least', spansMs / SPANS, trimmed.ms / SPANS, 1000),
    { name: 'profile build, against sorting one double a triangle: times as long, at most', ours: buildMs, baseline: sortMs, ratio: buildMs / sortMs, aim: 2, unit: 'ms' },
    {
      name: 'largest difference of 20 volumes from the direct sum, as a share of the whole volume: at most',
      ours: difference, baseline: profile.volumeMm3, ratio: difference / profile.volumeMm3, aim: 1e-12, unit: 'mm³',
    },
    {
      name: 'mesh and all that building its profile allocates, against positions and indices: times as much, at most',
      ours: buildBytes, baseline: meshBytes, ratio: buildBytes / meshBytes, aim: 6, unit: 'bytes',
    },
  ];
}

/** The trimmed solid went in with 32-bit coordinates: 2⁻²⁴ of the extent on each, over the whole surface. */
const TRIM_SHARE = 1e-6;

function faster(name: string, ours: number, baseline: number, aim: number): BenchRow {
  return { name, ours, baseline, ratio: baseline / ours, aim, unit: 'ms' };
}

function spansOf(profile: Profile, heights: readonly number[]): number[] {
  return heights.slice(1).map((to, k) => profile.volumeBelow(to) - profile.volumeBelow(heights[k]));
}

function sortingLowest({ positions, indices }: TriangleMesh): () => void {
  const lowest = new Float64Array(indices.length / 3);
  for (let t = 0; t < lowest.length; t++) {
    lowest[t] = Math.min(...[0, 1, 2].map((k) => positions[3 * indices[3 * t + k] + 2]));
  }
  const copy = new Float64Array(lowest.length);
  return () => {
    copy.set(lowest);
    copy.sort();
  };
}

/** Trim every span out of the solid and take its volume: two cuts a span, the solid read in beforehand. */
async function trimming(mesh: TriangleMesh, heights: readonly number[]): Promise<{ ms: number; spans: number[] }> {
  const library = await manifold();
  const solid = library.Manifold.ofMesh(
    new library.Mesh({ numProp: 3, vertProperties: Float32Array.from(mesh.positions), triVerts: mesh.indices.slice() }),
  );
  const span = (from: number, to: number): number => {
    const above = solid.trimByPlane([0, 0, 1], from);
    const both = above.trimByPlane([0, 0, -1], -to);
    const volume = both.volume();
    above.delete();
    both.delete();
    return volume;
  };
  span(heights[SPANS / 2], heights[SPANS / 2 + 1]);
  let spans: number[] = [];
  const ms = median(BASELINE_ROUNDS, () => {
    spans = heights.slice(1).map((to, k) => span(heights[k], to));
  });
  solid.delete();
  return { ms, spans };
}

/**
 * Bytes of every typed array that a call makes, none taken as freed again: no less than its peak, and the same
 * on every machine, where the process's own memory also holds the baseline's.
 */
function allocatedBy(work: () => void): number {
  let bytes = 0;
  const watched = ['Float64Array', 'Int32Array', 'Uint32Array', 'Uint8Array', 'Int8Array', 'Float32Array'] as const;
  const scope = globalThis as Record<string, unknown>;
  const originals = watched.map((name) => scope[name]);
  watched.forEach((name, n) => {
    scope[name] = new Proxy(originals[n] as object, {
      construct(target, args, newTarget) {
        const made = Reflect.construct(target as new () => ArrayBufferView, args, newTarget) as ArrayBufferView;
        if (!(args[0] instanceof ArrayBuffer)) bytes += made.byteLength;
        return made;
      },
    });
  });
  try {
    work();
  } finally {
    watched.forEach((name, n) => (scope[name] = originals[n]));
  }
  return bytes;
}

function median(rounds: number, work: () => void): number {
  if (rounds > 1) work();
  const times = Array.from({ length: rounds }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return times[Math.floor(rounds / 2)];
}
