/** A colored part with its used vertices only, as unused.ts does it for plain ones: parts of a file share lists of vertices. */
import type { ColoredPart } from '../../../core/sight/colors/colored-mesh.ts';
import { grouped, type Fail } from '../../fail.ts';
import { EXPORT_AGAIN } from '../raw.ts';

/** Throws for vertex numbers out of range. */
export function withUsed(part: ColoredPart, fail: Fail): ColoredPart {
  const vertices = part.positions.length / 3;
  const number = new Int32Array(vertices).fill(-1);
  const used: number[] = [];
  for (const v of part.indices) {
    if (v >= vertices) throw fail(`a triangle that uses vertex ${grouped(v)}`, `one of the ${grouped(vertices)} vertices, counted from 0`, EXPORT_AGAIN);
    if (number[v] < 0) number[v] = used.push(v) - 1;
  }
  const taken = <T extends Float64Array | Float32Array>(values: T, width: number, kept: T): T => {
    used.forEach((v, i) => kept.set(values.subarray(width * v, width * v + width), width * i));
    return kept;
  };
  return {
    ...part,
    positions: taken(part.positions, 3, new Float64Array(3 * used.length)),
    indices: part.indices.map((v) => number[v]),
    ...(part.vertexLight && { vertexLight: taken(part.vertexLight, 3, new Float32Array(3 * used.length)) }),
    ...(part.uv && { uv: taken(part.uv, 2, new Float32Array(2 * used.length)) }),
  };
}
