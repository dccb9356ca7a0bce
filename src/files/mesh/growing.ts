/** Typed arrays that grow by half again, for formats that do not say how much is coming. */

export interface Growing<A extends Float64Array | Uint32Array> {
  array: A;
  length: number;
}

const FIRST = 3072;

export function growingDoubles(): Growing<Float64Array> {
  return { array: new Float64Array(FIRST), length: 0 };
}

export function growingIndices(): Growing<Uint32Array> {
  return { array: new Uint32Array(FIRST), length: 0 };
}

export function push<A extends Float64Array | Uint32Array>(to: Growing<A>, value: number): void {
  if (to.length === to.array.length) grow(to);
  to.array[to.length++] = value;
}

/** The filled part as an array of its own, so that the slack can be freed. */
export function filled<A extends Float64Array | Uint32Array>(from: Growing<A>): A {
  return from.array.slice(0, from.length) as A;
}

function grow<A extends Float64Array | Uint32Array>(to: Growing<A>): void {
  const larger = new (to.array.constructor as new (length: number) => A)(Math.ceil(to.array.length * 1.5));
  larger.set(to.array);
  to.array = larger;
}
