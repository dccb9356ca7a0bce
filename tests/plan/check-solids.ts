/**
 * The checker's own volumes: molds by the integral of their section, solids by the closed form of what lies below a height.
 * It knows solids that stand upright (boxes also on a side, cones also upside down) and do not overlap; that is what the
 * random scenes hold. Heights mm, volumes mm³.
 */

import type { MoldJson, PlacementJson, ShapeJson } from './check-types.ts';

/** Right angles and half turns come as exact degrees. */
const TURN_DEG = 1e-9;
/** A bed that misses the wall by less than this still closes the section, mm. */
const TOUCH_MM = 1e-9;

export interface Solid {
  readonly id: string;
  readonly kind: 'figure' | 'bed';
  readonly hold: string;
  readonly baseMm: number;
  readonly topMm: number;
  /** The whole shape's volume, mm³, gravel's gaps included. */
  readonly volumeMm3: number;
  /** What a gravel bed displaces of its volume, else 1. */
  readonly grains: number;
  /** It fills the mold's whole section from its base to its top and drinks nothing. */
  readonly closes: boolean;
  /** The walls cut it. */
  readonly clipped: boolean;
  /** What it displaces below a height, inside the mold, mm³. */
  below(zMm: number): number;
}

/** Volume of the empty mold between two heights. */
export function moldBetween(mold: MoldJson, fromMm: number, toMm: number): number {
  return moldBelow(mold, toMm) - moldBelow(mold, fromMm);
}

/** Integral of the section from the floor: (p + 2gz)(q + 2gz) less the corners, or π(r + gz)², with g = tan(draft). */
function moldBelow(mold: MoldJson, z: number): number {
  const g = Math.tan(((mold.draftDeg ?? 0) * Math.PI) / 180);
  if (mold.shape === 'round') {
    const r = mold.diameterMm! / 2;
    return Math.PI * (r * r * z + r * g * z * z + (g * g * z * z * z) / 3);
  }
  const p = mold.lengthMm!;
  const q = mold.widthMm!;
  const corner = mold.cornerRadiusMm ?? 0;
  return p * q * z + (p + q) * g * z * z + (4 * g * g * z * z * z) / 3 - (4 - Math.PI) * corner * corner * z;
}

/** Height at which a mold with these solids holds a volume of liquid above `fromMm`; goes on above the rim with the same draft. */
export function levelOf(mold: MoldJson, solids: readonly Solid[], fromMm: number, volumeMm3: number): number {
  const held = (z: number) => moldBetween(mold, fromMm, z) - solids.reduce((sum, s) => sum + s.below(z) - s.below(fromMm), 0);
  let low = fromMm;
  let high = fromMm + 1;
  while (held(high) < volumeMm3) high += high - fromMm;
  for (let i = 0; i < 200 && high - low > 1e-12 * Math.max(1, high); i++) {
    const middle = (low + high) / 2;
    if (held(middle) < volumeMm3) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

export function solidOf(placement: PlacementJson, mold: MoldJson): Solid {
  const scale = placement.scale ?? 1;
  const shape = upright(placement.shape!, placement.turnDeg ?? [0, 0, 0]);
  const baseMm = placement.baseMm ?? 0;
  const heightMm = shape.heightMm * scale;
  const volumeMm3 = shape.volumeMm3 * scale ** 3;
  const grains = placement.kind === 'bed' ? 1 - (placement.voidFraction ?? 0) : 1;
  const covers = placement.kind === 'bed' && coversMold(placement, mold, baseMm + heightMm);
  const below = (z: number) => {
    const t = Math.min(1, Math.max(0, (z - baseMm) / heightMm));
    return grains * (covers ? moldBetween(mold, baseMm, baseMm + t * heightMm) : volumeMm3 * shape.share(t));
  };
  return {
    id: placement.id,
    kind: placement.kind as 'figure' | 'bed',
    hold: placement.hold ?? (placement.kind === 'bed' ? 'fixed' : baseMm > 0 ? 'rests' : 'stands'),
    baseMm,
    topMm: baseMm + heightMm,
    volumeMm3,
    grains,
    closes: covers && grains === 1,
    clipped: covers,
    below,
  };
}

/** A box bed at least as wide and long as the mold is at the bed's top, or a disk as wide as a straight round one: the walls clip it. */
function coversMold(placement: PlacementJson, mold: MoldJson, topMm: number): boolean {
  const shape = placement.shape!;
  const scale = placement.scale ?? 1;
  const wider = 2 * topMm * Math.tan(((mold.draftDeg ?? 0) * Math.PI) / 180);
  if (shape.type === 'cylinder') {
    const off = Math.hypot(placement.xMm ?? 0, placement.yMm ?? 0);
    return mold.shape === 'round' && (2 * shape.radiusMm! * scale - mold.diameterMm! - wider) / 2 - off >= -TOUCH_MM;
  }
  if (shape.type !== 'box') return false;
  const [length, width] = mold.shape === 'round' ? [mold.diameterMm!, mold.diameterMm!] : [mold.lengthMm!, mold.widthMm!];
  const spareX = (shape.lengthMm! * scale - length - wider) / 2 - Math.abs(placement.xMm ?? 0);
  const spareY = (shape.widthMm! * scale - width - wider) / 2 - Math.abs(placement.yMm ?? 0);
  return spareX >= -TOUCH_MM && spareY >= -TOUCH_MM;
}

interface Upright {
  readonly heightMm: number;
  readonly volumeMm3: number;
  /** Share of the volume below a share of the height. */
  share(t: number): number;
}

/** Turns that keep a closed form: any about z, right angles of a box, a cone on its tip, any of a sphere. */
function upright(shape: ShapeJson, turnDeg: readonly number[]): Upright {
  const [x, y] = turnDeg.map((d) => ((d % 360) + 360) % 360);
  const flat = Math.abs(x) < TURN_DEG && Math.abs(y) < TURN_DEG;
  const { lengthMm: l = 0, widthMm: w = 0, heightMm: h = 0, radiusMm: r = 0 } = shape;
  const linear = (t: number) => t;
  if (shape.type === 'sphere') return { heightMm: 2 * r, volumeMm3: (4 / 3) * Math.PI * r ** 3, share: (t) => t * t * (3 - 2 * t) };
  if (shape.type === 'box') {
    const height = flat ? h : Math.abs(x - 90) < TURN_DEG && Math.abs(y) < TURN_DEG ? w : Math.abs(y - 90) < TURN_DEG && Math.abs(x) < TURN_DEG ? l : NaN;
    return { heightMm: height, volumeMm3: l * w * h, share: linear };
  }
  if (shape.type === 'cone' && Math.abs(x - 180) < TURN_DEG && Math.abs(y) < TURN_DEG) {
    return { heightMm: h, volumeMm3: (Math.PI * r * r * h) / 3, share: (t) => t ** 3 };
  }
  if (!flat) throw new Error(`The checker has no closed form for a ${shape.type} turned by ${turnDeg.join(', ')}`);
  switch (shape.type) {
    case 'cone': return { heightMm: h, volumeMm3: (Math.PI * r * r * h) / 3, share: (t) => 1 - (1 - t) ** 3 };
    case 'cylinder': return { heightMm: h, volumeMm3: Math.PI * r * r * h, share: linear };
    case 'ellipsoid': return { heightMm: h, volumeMm3: (Math.PI * l * w * h) / 6, share: (t) => t * t * (3 - 2 * t) };
    case 'wedge': return { heightMm: h, volumeMm3: (l * w * h) / 2, share: (t) => t * (2 - t) };
    case 'measured': return { heightMm: h, volumeMm3: shape.volumeMl! * 1000, share: linear };
    case 'cap': {
      const big = shape.sphereRadiusMm!;
      const height = big - Math.sqrt(big * big - shape.rimRadiusMm! ** 2);
      const cap = (k: number) => (Math.PI * k * k * (3 * big - k)) / 3;
      return { heightMm: height, volumeMm3: cap(height), share: (t) => 1 - cap(height * (1 - t)) / cap(height) };
    }
    default: throw new Error(`The checker has no closed form for a ${shape.type}`);
  }
}
