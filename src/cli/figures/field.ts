/**
 * Signed distance fields: solids described by how far a point is outside them.
 *
 * Negative inside, positive outside, 0 on the surface, about 1 per mm near it. Some are only near to
 * true distances (ellipsoids, tapered tubes); polygonize.ts asks no more than the right sign and a
 * usable slope. Square roots instead of Math.hypot: faster, and the same to the last bit in every engine.
 * Lengths mm.
 */

export type Field = (x: number, y: number, z: number) => number;

/** x, y, z. */
export type Point = readonly [number, number, number];

/** x, y, z and a radius there. */
export type Bead = readonly [number, number, number, number];

export function ball([cx, cy, cz]: Point, radius: number): Field {
  return (x, y, z) => {
    const dx = x - cx;
    const dy = y - cy;
    const dz = z - cz;
    return Math.sqrt(dx * dx + dy * dy + dz * dz) - radius;
  };
}

/** Axis-aligned, by half sizes. Its slope is 1 at the surface, less exact away from it. */
export function ellipsoid([cx, cy, cz]: Point, [rx, ry, rz]: Point): Field {
  return (x, y, z) => {
    const px = (x - cx) / rx;
    const py = (y - cy) / ry;
    const pz = (z - cz) / rz;
    const k0 = Math.sqrt(px * px + py * py + pz * pz);
    const k1 = Math.sqrt((px * px) / (rx * rx) + (py * py) / (ry * ry) + (pz * pz) / (rz * rz));
    return k1 < 1e-12 ? -Math.min(rx, ry, rz) : (k0 * (k0 - 1)) / k1; // 1e-12 per mm: the very center, where k0/k1 is 0/0
  };
}

/** Round rods from bead to bead, the radius going evenly from one to the next; at least two beads. */
export function tube(beads: readonly Bead[]): Field {
  const n = beads.length - 1;
  const rods = new Float64Array(n * 9);
  for (let i = 0; i < n; i++) {
    const [ax, ay, az, ar] = beads[i];
    const [bx, by, bz, br] = beads[i + 1];
    const squared = (bx - ax) ** 2 + (by - ay) ** 2 + (bz - az) ** 2;
    rods.set([ax, ay, az, bx - ax, by - ay, bz - az, ar, br - ar, squared > 0 ? 1 / squared : 0], i * 9);
  }
  return (x, y, z) => {
    let nearest = Infinity;
    for (let i = 0; i < rods.length; i += 9) {
      const px = x - rods[i];
      const py = y - rods[i + 1];
      const pz = z - rods[i + 2];
      const dx = rods[i + 3];
      const dy = rods[i + 4];
      const dz = rods[i + 5];
      const t = Math.min(1, Math.max(0, (px * dx + py * dy + pz * dz) * rods[i + 8]));
      const qx = px - t * dx;
      const qy = py - t * dy;
      const qz = pz - t * dz;
      const d = Math.sqrt(qx * qx + qy * qy + qz * qz) - rods[i + 6] - t * rods[i + 7];
      if (d < nearest) nearest = d;
    }
    return nearest;
  };
}

/** A union whose seams are rounded as far as `width` from where the parts meet; 0 leaves them sharp. */
export function blend(width: number, ...fields: readonly Field[]): Field {
  return (x, y, z) => {
    let d = fields[0](x, y, z);
    for (let i = 1; i < fields.length; i++) d = smoothMin(d, fields[i](x, y, z), width);
    return d;
  };
}

/** What of `solid` is outside `tool`, the edge rounded as far as `width`. */
export function carve(solid: Field, tool: Field, width: number): Field {
  return (x, y, z) => -smoothMin(-solid(x, y, z), tool(x, y, z), width);
}

/** The part of `solid` above height `z0`, the edge rounded as far as `width`. */
export function above(solid: Field, z0: number, width: number): Field {
  return (x, y, z) => -smoothMin(-solid(x, y, z), z - z0, width);
}

/** The lesser of two distances, with a quadratic fillet where they differ by less than `width`. */
export function smoothMin(a: number, b: number, width: number): number {
  if (width <= 0) return Math.min(a, b);
  const h = Math.max(width - Math.abs(a - b), 0) / width;
  return Math.min(a, b) - h * h * width * 0.25;
}

export function smoothMax(a: number, b: number, width: number): number {
  return -smoothMin(-a, -b, width);
}
