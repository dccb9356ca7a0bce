/** A pond snail gliding toward +x: a wound shell with its spire up and back, a long foot, two tentacles. */
import { spine } from './curve.ts';
import { above, ball, blend, ellipsoid, smoothMax, tube } from './field.ts';
import type { Bead, Field } from './field.ts';

/** Turns of the shell, and how much a whorl grows in one turn (ratio of sizes). */
const TURNS = 4.2;
const GROWTH = 1.78;
/** Rods in one turn: the chord's sagitta stays under 0.05 mm on the last whorl. */
const RODS_PER_TURN = 40;
/** The last whorl: distance from the axis, fall along it from the apex, radius of the tube, mm. */
const LAST = { outMm: 5.7, fallMm: 18, tubeMm: 6.4 };
/** From the shell's apex down its axis. */
const APEX = [-16.2, 1.6, 20.4] as const;
const AXIS = unit([0.8, -0.08, -0.6]);
/** The foot's middle line from the tail forward, with its radius. */
const FOOT: readonly Bead[] = [
  [-20.5, 0, 0.6, 0.6],
  [-13, 0, 1.6, 1.7],
  [-4, 0, 2.6, 3.2],
  [6, 0, 3.2, 4.0],
  [13, 0, 3.4, 3.8],
  [17, 0, 4.0, 3.2],
];

export function pondSnail(): Field {
  const foot = above(
    blend(
      1.6,
      tube(spine(FOOT, 6)),
      sole(),
    ),
    0,
    0.5,
  );
  const snout = ellipsoid([18.6, 0, 4.2], [1.9, 2.4, 2.4]);
  const neck = ellipsoid([10.5, 0, 6.8], [5, 3.9, 3.6]);
  const head = blend(1.8, ellipsoid([16.4, 0, 6.2], [3.6, 3.3, 3.2]), snout, neck);
  const tentacles = blend(0, tentacle(1), tentacle(-1));
  const eyes = blend(0, ball([18.0, 2.2, 8.0], 0.7), ball([18.0, -2.2, 8.0], 0.7));
  const animal = blend(0.5, blend(1.2, blend(2.2, foot, head), tentacles), eyes);
  return blend(0.7, animal, shell());
}

/** The flat rim of the foot, wider than the body it carries. */
function sole(): Field {
  return (x, y, z) => {
    const along = x > 4 ? (x - 4) / 15 : (x - 4) / 23;
    const w = 5.2 * Math.sqrt(Math.max(0, 1 - along * along)) * (x > 4 ? 1 : 1 - 0.35 * along * along);
    const inside = smoothMax(Math.abs(y) - w, Math.abs(along) * 19 - 19, 1);
    return smoothMax(inside, Math.abs(z - 0.6) - 0.9 * Math.max(0.3, 1 - along * along), 0.8);
  };
}

function tentacle(side: number): Field {
  return tube(
    spine(
      [
        [16.6, side * 1.9, 7.6, 1.25],
        [18.4, side * 3.2, 10.4, 0.95],
        [20.2, side * 4.2, 13.2, 0.75],
        [22.2, side * 4.6, 15.6, 0.6],
      ],
      5,
    ),
  );
}

function shell(): Field {
  const u = unit(cross(AXIS, [0, 1, 0]));
  const v = cross(AXIS, u);
  const beads: Bead[] = [];
  const rods = Math.round(TURNS * RODS_PER_TURN);
  for (let i = 0; i <= rods; i++) {
    const back = (rods - i) / RODS_PER_TURN;
    const size = GROWTH ** -back;
    const turn = -2 * Math.PI * back + 1.2;
    const flare = 1 + 0.1 * Math.max(0, 1 - back * 4);
    const a = size * LAST.outMm;
    const at = (k: 0 | 1 | 2): number => APEX[k] + AXIS[k] * LAST.fallMm * size + a * (Math.cos(turn) * u[k] + Math.sin(turn) * v[k]);
    beads.push([at(0), at(1), at(2), LAST.tubeMm * size * flare]);
  }
  // The core that the whorls wind about; without it a hollow would stay along the axis.
  const core = tube([
    [APEX[0] + AXIS[0] * 2, APEX[1] + AXIS[1] * 2, APEX[2] + AXIS[2] * 2, 0.5],
    [APEX[0] + AXIS[0] * LAST.fallMm, APEX[1] + AXIS[1] * LAST.fallMm, APEX[2] + AXIS[2] * LAST.fallMm, 4],
  ]);
  return blend(0.3, tube(beads), core);
}

type Vector = readonly [number, number, number];

function unit([x, y, z]: Vector): Vector {
  const length = Math.hypot(x, y, z);
  return [x / length, y / length, z / length];
}

function cross(a: Vector, b: Vector): Vector {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
