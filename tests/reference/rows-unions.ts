/** Solids that meet each other or the mold: what they share is counted once, what is outside is not counted. */
import { within, type EvidenceRow } from './evidence-row.ts';
import { box, boxMold, cylinder, degrees, roundMold, sphere, submerged, waterOf, wedge } from './made.ts';

const TABLE = 'standard mensuration, physics-tables §11';
/** Share. Cylinders and round walls cut by planes or each other, and exact polyhedra: closed forms or rounding (measured 2e-9 at most). */
const EXACT = 1e-8;
/** Share of the shared body. Balls are joined as facets of 96 × 48; measured 2e-6 at most for these bodies. */
const FACETS = 1e-5;

const POND = boxMold(400, 400, 200);
const MM3_PER_ML = 1000;
const round = roundMold(100, 120);
const frustum = roundMold(90, 80, { draftDeg: degrees(Math.atan(15 / 80)) });

/** A wedge that stands 40 mm high at the wall of a round mold r 50 and runs out `reach` mm from it. */
const ramp = (reach: number) => submerged(wedge(2 * reach, 120, 80), { x: 50, kind: 'bed' });
const shared = async (...solids: Parameters<typeof waterOf>[1][]): Promise<number> => (await waterOf(POND, ...solids)).overlaps.reduce((sum, { volumeMm3 }) => sum + volumeMm3, 0);
const taken = async (mold: Parameters<typeof waterOf>[0], ...solids: Parameters<typeof waterOf>[1][]): Promise<number> => MM3_PER_ML * (await waterOf(mold, ...solids)).displacedMl(0, mold.heightMm);
/** Lying along x or y, its axis 60 mm up. */
const lying = (turn: readonly [number, number, number]) => submerged(cylinder(20, 120), { base: 40, turn });

export const rows: readonly EvidenceRow[] = [
  { subject: 'lens of balls r 50 and 30, 60 apart, mm³', source: 'V = π(R + r − d)²(d² + 2d(R + r) − 3(R − r)²)/12d (memory)', ...within(FACETS, 20943.951024), got: () => shared(submerged(sphere(50), { base: 20 }), submerged(sphere(30), { base: 40, x: 60 })) },
  { subject: 'two balls r 50, 60 apart, together, mm³', source: 'two balls less their lens: 2 × 523598.7756 − 108908.5453 (memory)', ...within(FACETS, 938289.0059), got: () => taken(POND, submerged(sphere(50), { base: 20 }), submerged(sphere(50), { base: 20, x: 60 })) },
  { subject: 'two crossed rods r 20: what they share (Steinmetz), mm³', source: 'V = 16r³/3 (memory)', ...within(EXACT, 42666.6666667), got: () => shared(lying([0, 90, 0]), lying([90, 0, 0])) },
  {
    subject: 'three crossed rods r 20, 120 long, together, mm³', source: 'inclusion and exclusion: 3πr²l − 3 × 16r³/3 + 8(2 − √2)r³ (Steinmetz; memory)', ...within(EXACT, 361879.6741251),
    got: () => taken(POND, lying([0, 90, 0]), lying([90, 0, 0]), submerged(cylinder(20, 120))),
  },
  { subject: 'ball r 50 with a rod r 40 through it: what the ball adds (napkin ring 60 high), mm³', source: 'V = πh³/6, whatever the ball (memory)', ...within(FACETS, 113097.335529), got: async () => (await taken(POND, submerged(sphere(50), { base: 40 }), submerged(cylinder(40, 150), { base: 10 }))) - 753982.2368616 },
  { subject: 'ball r 50 and a rod r 25 that touches its axis: what they share (Viviani), mm³', source: 'V = 2R³(3π − 4)/9 (memory)', ...within(FACETS, 150688.276688), got: () => shared(submerged(sphere(50), { base: 40 }), submerged(cylinder(25, 150), { base: 10, x: 25 })) },
  { subject: 'ball r 20 half in a straight wall, mm³', source: `V = 2πr³/3, ${TABLE}`, ...within(EXACT, 16755.1608191), got: () => taken(boxMold(200, 120, 60), submerged(sphere(20), { x: 100, base: 10 })) },
  { subject: 'ball r 30 in the corner of walls and floor: an eighth of it, mm³', source: `V = πr³/6, ${TABLE}`, ...within(FACETS, 14137.1669412), got: () => taken(boxMold(200, 120, 60), submerged(sphere(30), { x: 100, y: 60, base: -30 })) },
  { subject: 'ball r 50 sunk 20 mm into the floor: the rest of it, mm³', source: `ball less cap: 523598.7756 − 54454.27266, ${TABLE}`, ...within(1e-9, 469144.50294), got: () => taken(POND, submerged(sphere(50), { base: -20 })) },
  { subject: 'slope over half a round mold r 50, 40 mm high at the wall, mm³', source: `ungula with b = r: V = 2r²h/3, ${TABLE}`, ...within(EXACT, 66666.66667), got: () => taken(round, ramp(50)) },
  { subject: 'slope reaching 80 mm into a round mold r 50, past its middle, mm³', source: `ungula with b > r: (h/b)(r²(b − r)φ + a(3r² − a²)/3), ${TABLE}`, ...within(EXACT, 122369.48717), got: () => taken(round, ramp(80)) },
  { subject: 'slope over all of a round mold r 50, mm³', source: `V = πr²h/2, ${TABLE}`, ...within(EXACT, 157079.63268), got: () => taken(round, ramp(100)) },
  { subject: 'block larger than a drafted round mold: all of the frustum, mm³', source: `V = πh(R² + Rr + r²)/3, ${TABLE}`, ...within(EXACT, 697433.5691), got: () => taken(frustum, submerged(box(300, 300, 200), { base: -20, kind: 'bed' })) },
  { subject: 'two crossed slats 100 × 20 × 10 and 20 × 100 × 10 together, mm³', source: 'two slats less the square they share: 20000 + 20000 − 4000, by hand', ...within(EXACT, 36000), got: () => taken(POND, submerged(box(100, 20, 10), { base: 30 }), submerged(box(20, 100, 10), { base: 30 })) },
  { subject: 'cube of 40 turned 45° with a corner through a straight wall: what stays inside, mm³', source: 'square less a right triangle of height 10: (1600 − 100) × 40, by hand', ...within(EXACT, 60000), got: () => taken(boxMold(200, 120, 60), submerged(box(40, 40, 40), { turn: [0, 0, 45], x: 110 - 40 * Math.SQRT1_2 })) },
  { subject: 'level of 90 mL over a slope rising 0 → 30 mm along 200 × 120 mm, mm', source: '½ × 100 × 15 × 120 mm³ = 90 mL, by hand (case 5)', ...within(1e-9, 15), got: async () => (await waterOf(boxMold(200, 120, 60), submerged(wedge(200, 120, 30), { kind: 'bed' }))).levelForFree(0, 90) },
  { subject: 'height at which a bed that fills the floor opens, mm', source: 'the lowest edge of a slab 12 mm thick under a slope, by hand', ...within(1e-9, 12), got: async () => (await waterOf(boxMold(200, 120, 60), submerged(box(200, 120, 12), { kind: 'bed' }), submerged(wedge(200, 120, 30), { base: 12, kind: 'bed' }))).opensAt(0, 50)! },
];
