/** The connected shells of a closed mesh, with their volumes: positive for a body, negative for a hollow. */
import type { TriangleMesh } from '../../core/solid/solid.ts';

export interface Shell {
  readonly mesh: TriangleMesh;
  readonly volumeMm3: number;
}

/** Shells in the order of their first triangle; vertices are renumbered in order of use, unused ones dropped. */
export function shells(mesh: TriangleMesh): Shell[] {
  const { positions, indices } = mesh;
  const parent = Uint32Array.from({ length: positions.length / 3 }, (_, v) => v);
  const root = (v: number): number => {
    while (parent[v] !== v) {
      parent[v] = parent[parent[v]];
      v = parent[v];
    }
    return v;
  };
  for (let i = 0; i < indices.length; i += 3) {
    const a = root(indices[i]);
    parent[root(indices[i + 1])] = a;
    parent[root(indices[i + 2])] = a;
  }
  const groups = new Map<number, number[]>();
  for (let i = 0; i < indices.length; i += 3) {
    const r = root(indices[i]);
    const group = groups.get(r);
    if (group) group.push(indices[i], indices[i + 1], indices[i + 2]);
    else groups.set(r, [indices[i], indices[i + 1], indices[i + 2]]);
  }
  return [...groups.values()].map((group) => {
    const part = compact(positions, group);
    return { mesh: part, volumeMm3: volumeMm3(part) };
  });
}

/** Enclosed volume by the divergence theorem, mm³; negative when wound inside out. */
export function volumeMm3({ positions, indices }: TriangleMesh): number {
  let six = 0;
  for (let i = 0; i < indices.length; i += 3) {
    const a = indices[i] * 3;
    const b = indices[i + 1] * 3;
    const c = indices[i + 2] * 3;
    six +=
      positions[a] * (positions[b + 1] * positions[c + 2] - positions[b + 2] * positions[c + 1]) +
      positions[a + 1] * (positions[b + 2] * positions[c] - positions[b] * positions[c + 2]) +
      positions[a + 2] * (positions[b] * positions[c + 1] - positions[b + 1] * positions[c]);
  }
  return six / 6;
}

function compact(positions: Float64Array, triangles: readonly number[]): TriangleMesh {
  const renumbered = new Map<number, number>();
  const out: number[] = [];
  const indices = Uint32Array.from(triangles, (v) => {
    const known = renumbered.get(v);
    if (known !== undefined) return known;
    out.push(positions[v * 3], positions[v * 3 + 1], positions[v * 3 + 2]);
    renumbered.set(v, renumbered.size);
    return renumbered.size - 1;
  });
  return { positions: Float64Array.from(out), indices };
}
