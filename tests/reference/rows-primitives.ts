/** Figures and beds by closed form: whole, partly under, turned, cut; levels and sections. */
import type { Shape } from '../../src/core/scene/scene.ts';
import { printed, within, type EvidenceRow } from './evidence-row.ts';
import { box, cone, cylinder, degrees, profileOf, sphere, turned, wedge } from './made.ts';

const TABLE = 'standard mensuration, physics-tables §11';
/** Relative. Slanted cylinders: ten printed digits. */
const SLANTED = 1e-9;
/** Relative. A slanted cone is a mesh of 2048 sides: (2π/2048)²/12 of the whole, and a thin section more. */
const CONE_FACETS = 1e-5;
/** mm. Ten printed digits of a volume leave less. */
const LEVEL_MM = 1e-7;

const ellipsoid: Shape = { type: 'ellipsoid', lengthMm: 60, widthMm: 40, heightMm: 20 };
const cap: Shape = { type: 'cap', sphereRadiusMm: 50, rimRadiusMm: 30 };
const measured: Shape = { type: 'measured', volumeMl: 42, lengthMm: 60, widthMm: 50, heightMm: 20 };

/** Slope of a surface that rises from 20 to 60 mm across a cylinder of 100 mm. */
const fullBase = Math.atan(40 / 100);
/** Its ungula reaches 30 mm in from the wall and stands 40 mm up it. */
const ungula = Math.atan(40 / 30);
const TILT = (2 * Math.PI) / 180;
/** Level at which a tray of 200 mm, tilted by 2°, is 30 mm deep in its middle: 30 cos 2° + 100 sin 2° over the low corner. */
const trayLevel = (): number => profileOf(box(200, 100, 60), [0, 2, 0]).levelOf(200 * 100 * 30);
/** Space diagonal upright. */
const onCorner = [45, degrees(Math.atan(Math.SQRT1_2)), 0] as const;

export const rows: readonly EvidenceRow[] = [
  // Round things
  { subject: 'hemisphere: a sphere r 50 under to its middle, mm³', source: `V = 2πr³/3, ${TABLE}`, ...printed('261799.38780'), got: () => profileOf(sphere(50)).volumeBelow(50) },
  { subject: 'spherical cap: a sphere r 50 under 20 mm, mm³', source: `V = πh²(3R − h)/3, ${TABLE}`, ...printed('54454.27266'), got: () => profileOf(sphere(50)).volumeBelow(20) },
  { subject: 'spherical zone: a sphere r 50 between 10 and 30 mm over its middle, mm³', source: `V = πh(3a² + 3b² + h²)/6, ${TABLE}`, ...printed('129852.49635'), got: () => profileOf(sphere(50)).volumeBelow(80) - profileOf(sphere(50)).volumeBelow(60) },
  { subject: 'level at which 54454.27266 mm³ of a sphere r 50 are under, mm', source: `root of πh²(3R − h)/3, ${TABLE}`, expected: 20, tolerance: LEVEL_MM, got: () => profileOf(sphere(50)).levelOf(54454.27266) },
  { subject: 'spherical cap from its rim: a 30, h 10, mm³', source: `V = πh(3a² + h²)/6, ${TABLE}`, ...printed('14660.76572'), got: () => profileOf(cap).volumeMm3 },
  { subject: 'cap turned rim up, under 5 mm, mm³', source: 'V = πh²(3R − h)/3 with R 50, h 5, by hand', ...printed('3796.0911231'), got: () => profileOf(cap, [180, 0, 0]).volumeBelow(5) },
  { subject: 'ellipsoid of half-sizes 30, 20, 10, mm³', source: `V = 4πabc/3, ${TABLE}`, ...printed('25132.74123'), got: () => profileOf(ellipsoid).volumeMm3 },
  { subject: 'ellipsoid cap: its lowest 5 mm, mm³', source: `V = πab h²(3c − h)/(3c²), ${TABLE}`, ...printed('3926.99082'), got: () => profileOf(ellipsoid).volumeBelow(5) },
  { subject: 'height of the ellipsoid turned 30° about y, mm', source: 'support of an ellipsoid: 2√((a sin θ)² + (c cos θ)²) = 20√3, by hand', ...printed('34.641016151'), got: () => turned(ellipsoid, [0, 30, 0]).bounds.max[2] },
  { subject: 'half of the ellipsoid turned about three axes, mm³', source: `half of 4πabc/3 by its symmetry, ${TABLE}`, ...printed('12566.37061'), got: () => { const { volumeBelow, topMm } = profileOf(ellipsoid, [21, -37, 64]); return volumeBelow(topMm / 2); } },

  // Cylinders
  { subject: 'lying cylinder r 50, 200 long, under 20 mm, mm³', source: `L(r² acos((r − h)/r) − (r − h)√(2rh − h²)), ${TABLE}`, ...printed('223647.6090'), got: () => profileOf(cylinder(50, 200), [0, 90, 0]).volumeBelow(20) },
  { subject: 'water line of the lying cylinder at 20 mm: a strip of 200 × 80, mm²', source: 'chord 2√(2rh − h²) = 80, by hand', ...within(1e-12, 16000), got: () => profileOf(cylinder(50, 200), [0, 90, 0]).areaAt(20) },
  {
    subject: 'cylinder r 50 at a slant, its whole base under, 20 and 60 mm up its sides, mm³', source: `V = πr²(h₁ + h₂)/2, ${TABLE}`,
    ...within(SLANTED, 314159.26536), got: () => profileOf(cylinder(50, 100), [0, degrees(fullBase), 0]).volumeBelow(50 * Math.sin(fullBase) + 40 * Math.cos(fullBase)),
  },
  {
    subject: 'ungula: puddle in the corner of a tilted cylinder r 50, 40 mm up its wall and 30 mm in, mm³', source: `(h/b)(r²(b − r)φ + a(3r² − a²)/3), ${TABLE}`,
    ...within(SLANTED, 32696.51796), got: () => profileOf(cylinder(50, 100), [0, degrees(ungula), 0]).volumeBelow(30 * Math.sin(ungula)),
  },
  { subject: 'section of a cylinder r 20 leaning 30°: an ellipse, mm²', source: 'A = πr²/cos θ, by hand', ...within(SLANTED, 1451.0394914), got: () => profileOf(cylinder(20, 100), [0, 30, 0]).areaAt(45) },

  // Cones
  { subject: 'cone r 30, 40 high, mm³', source: `V = πr²h/3, ${TABLE}`, ...printed('37699.11184'), got: () => profileOf(cone(30, 40)).volumeMm3 },
  { subject: 'cone r 60, 320 high, under 80 mm: a frustum 60 → 45, mm³', source: `V = πh(R² + Rr + r²)/3, ${TABLE}`, ...printed('697433.5691'), got: () => profileOf(cone(60, 320)).volumeBelow(80) },
  { subject: 'level of an eighth of a cone r 30, 40 high, on its tip, mm', source: 'similar solids: (h/H)³ = 1/8, by hand', expected: 20, tolerance: LEVEL_MM, got: () => profileOf(cone(30, 40), [180, 0, 0]).levelOf(4712.3889804) },
  { subject: 'cone r 30, 40 high, on its side: its axial section, mm²', source: 'a triangle of base 2r and height h, cut through the axis: rh, by hand', ...within(CONE_FACETS, 1200), got: () => profileOf(cone(30, 40), [0, 90, 0]).areaAt(30) },

  // Boxes and wedges
  { subject: 'tray 200 × 100 tilted 2°, 30 mm deep in the middle: depth at its low end, mm', source: `30 + 100 tan 2°, ${TABLE}`, ...printed('33.492077'), got: () => trayLevel() / Math.cos(TILT) },
  { subject: 'tray tilted 2°, 5 mm deep at its low wall and dry at the other, mm³', source: `h²w/(2 tan θ), length 143.18127, ${TABLE}`, ...printed('35795.3166'), got: () => profileOf(box(200, 100, 60), [0, 2, 0]).volumeBelow(5 * Math.cos(TILT)) },
  { subject: 'cube of 10 on its corner: the corner cut off at a third of its height, mm³', source: 'a tetrahedron of three right angles: a³/6 (memory)', ...printed('166.66666667'), got: () => profileOf(box(10, 10, 10), onCorner).volumeBelow(10 / Math.sqrt(3)) },
  { subject: 'cube of 10 on its corner: the middle section is a regular hexagon, mm²', source: 'A = (3√3/4)a² (memory)', ...printed('129.90381057'), got: () => profileOf(box(10, 10, 10), onCorner).areaAt(5 * Math.sqrt(3)) },
  { subject: 'wedge 200 × 120, 30 high, under 15 mm, mm³', source: 'prism of triangle less the triangle above: 360000 − 90000, by hand', ...within(1e-12, 270000), got: () => profileOf(wedge(200, 120, 30)).volumeBelow(15) },
  { subject: 'wedge 200 × 120, 30 high, lying on its tall side: section at 50 mm, mm²', source: 'similar triangles: 120 × 30 × (1 − 50/200), by hand', ...within(1e-12, 2700), got: () => profileOf(wedge(200, 120, 30), [0, 90, 0]).areaAt(50) },
  { subject: 'object of 42 mL measured in water, half under, mm³', source: 'design §3: spread evenly over its height', ...within(1e-12, 21000), got: () => profileOf(measured).volumeBelow(10) },
];
