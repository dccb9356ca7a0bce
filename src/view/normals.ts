/** Normals for drawing: smooth over soft forms, parted at creases of small meshes (a box stays a box). */

export interface Shaded {
  /** Three points a triangle, or the mesh's own points with `indices`. */
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly indices?: Uint32Array;
}

/** Above this many triangles a mesh is taken as soft: parting costs memory and time for nothing one would see. */
const MOST_PARTED = 60_000;
/** Faces that meet at more than this are a crease: cosine of 38°. */
const CREASE_COSINE = Math.cos((38 * Math.PI) / 180);
/** Creases get an ink line of their own only on plain forms. */
const MOST_WITH_EDGES = 6_000;

/** One normal a point: the sum of its triangles' normals by their area. A point of no triangle gets +z. */
export function smoothNormals(p: Float32Array, indices: Uint32Array): Float32Array {
  const normals = new Float32Array(p.length);
  for (let t = 0; t < indices.length; t += 3) {
    const [a, b, c] = [3 * indices[t], 3 * indices[t + 1], 3 * indices[t + 2]];
    const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a], vy = p[c + 1] - p[a + 1], vz = p[c + 2] - p[a + 2];
    const nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
    normals[a] += nx; normals[a + 1] += ny; normals[a + 2] += nz;
    normals[b] += nx; normals[b + 1] += ny; normals[b + 2] += nz;
    normals[c] += nx; normals[c + 1] += ny; normals[c + 2] += nz;
  }
  for (let i = 0; i < normals.length; i += 3) {
    const length = Math.hypot(normals[i], normals[i + 1], normals[i + 2]);
    if (length > 0) {
      normals[i] /= length; normals[i + 1] /= length; normals[i + 2] /= length;
    } else normals[i + 2] = 1;
  }
  return normals;
}

/** Points and normals to draw a mesh with. */
export function shaded(p: Float32Array, indices: Uint32Array, smooth: Float32Array): Shaded {
  if (indices.length / 3 > MOST_PARTED) return { positions: p, normals: smooth, indices };
  const flat = faceNormals(p, indices);
  const { start, corners } = trianglesAt(p.length / 3, indices);
  const positions = new Float32Array(3 * indices.length);
  const normals = new Float32Array(3 * indices.length);
  for (let i = 0; i < indices.length; i++) {
    const own = 4 * ((i / 3) | 0);
    const v = indices[i];
    let x = 0, y = 0, z = 0;
    for (let k = start[v]; k < start[v + 1]; k++) {
      const other = 4 * corners[k];
      const cosine = flat[own] * flat[other] + flat[own + 1] * flat[other + 1] + flat[own + 2] * flat[other + 2];
      if (cosine < CREASE_COSINE && other !== own) continue;
      const area = flat[other + 3];
      x += area * flat[other]; y += area * flat[other + 1]; z += area * flat[other + 2];
    }
    const length = Math.hypot(x, y, z) || 1;
    positions[3 * i] = p[3 * v]; positions[3 * i + 1] = p[3 * v + 1]; positions[3 * i + 2] = p[3 * v + 2];
    normals[3 * i] = x / length; normals[3 * i + 1] = y / length; normals[3 * i + 2] = z / length;
  }
  return { positions, normals };
}

/** The creases of a plain form as line pieces, six numbers each; none for a mesh of many triangles. */
export function creases(p: Float32Array, indices: Uint32Array): number[] {
  if (indices.length / 3 > MOST_WITH_EDGES) return [];
  const flat = faceNormals(p, indices);
  const seen = new Map<string, number>();
  const pieces: number[] = [];
  for (let i = 0; i < indices.length; i++) {
    const triangle = (i / 3) | 0;
    const [a, b] = [indices[i], indices[i % 3 === 2 ? i - 2 : i + 1]];
    const other = seen.get(`${b},${a}`);
    if (other === undefined) {
      seen.set(`${a},${b}`, triangle);
      continue;
    }
    const [m, n] = [4 * triangle, 4 * other];
    const cosine = flat[m] * flat[n] + flat[m + 1] * flat[n + 1] + flat[m + 2] * flat[n + 2];
    if (cosine < CREASE_COSINE) pieces.push(p[3 * a], p[3 * a + 1], p[3 * a + 2], p[3 * b], p[3 * b + 1], p[3 * b + 2]);
  }
  return pieces;
}

/** x, y, z and twice the area per triangle; a triangle without area has four zeros. */
function faceNormals(p: Float32Array, indices: Uint32Array): Float32Array {
  const flat = new Float32Array((4 * indices.length) / 3);
  for (let t = 0, k = 0; t < indices.length; t += 3, k += 4) {
    const [a, b, c] = [3 * indices[t], 3 * indices[t + 1], 3 * indices[t + 2]];
    const ux = p[b] - p[a], uy = p[b + 1] - p[a + 1], uz = p[b + 2] - p[a + 2];
    const vx = p[c] - p[a], vy = p[c + 1] - p[a + 1], vz = p[c + 2] - p[a + 2];
    const nx = uy * vz - uz * vy, ny = uz * vx - ux * vz, nz = ux * vy - uy * vx;
    const length = Math.hypot(nx, ny, nz);
    if (length === 0) continue;
    flat[k] = nx / length; flat[k + 1] = ny / length; flat[k + 2] = nz / length; flat[k + 3] = length;
  }
  return flat;
}

/** For each point the triangles at it: `corners[start[v] … start[v + 1]]`. */
function trianglesAt(points: number, indices: Uint32Array): { start: Uint32Array; corners: Uint32Array } {
  const start = new Uint32Array(points + 1);
  for (let i = 0; i < indices.length; i++) start[indices[i] + 1]++;
  for (let v = 0; v < points; v++) start[v + 1] += start[v];
  const fill = start.slice();
  const corners = new Uint32Array(indices.length);
  for (let i = 0; i < indices.length; i++) corners[fill[indices[i]]++] = (i / 3) | 0;
  return { start, corners };
}
