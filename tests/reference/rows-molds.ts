/** Empty molds: volume, section and level by the mensuration formulas of any handbook. */
import { moldAreaAt, moldLevelOf, moldVolumeBelow, moldWallOvershoot } from '../../src/core/solid/mold.ts';
import { printed, within, type EvidenceRow } from './evidence-row.ts';
import { boxMold, degrees, roundMold } from './made.ts';

const TABLE = 'standard mensuration, physics-tables §11';
/** Levels are promised to 1e-12 mm; ten printed digits of a volume leave less than 1e-8 mm. */
const LEVEL_MM = 1e-8;
/** Relative. A few roundings of doubles. */
const ROUNDING = 1e-14;

const frustum = roundMold(90, 80, { draftDeg: degrees(Math.atan(15 / 80)) });
const tapered = boxMold(100, 60, 50, { draftDeg: degrees(Math.atan(10 / 50)) });
const rounded = boxMold(200, 100, 40, { cornerRadiusMm: 15 });

export const rows: readonly EvidenceRow[] = [
  { subject: 'round mold with draft: conical frustum 45 → 60, 80 high, mm³', source: `V = πh(R² + Rr + r²)/3, ${TABLE}`, ...printed('697433.5691'), got: () => moldVolumeBelow(frustum, 80) },
  { subject: 'box mold with draft: 100×60 → 120×80, 50 high, mm³', source: `rectangular frustum by its integral, ${TABLE}`, ...printed('386666.6667'), got: () => moldVolumeBelow(tapered, 50) },
  { subject: 'box mold with rounded corners: section 200×100 r 15, mm²', source: `A = LW − (4 − π)r², ${TABLE}`, ...printed('19806.858347'), got: () => moldAreaAt(rounded, 12) },
  { subject: 'box mold with rounded corners: 200×100 r 15, 40 high, mm³', source: `V = (LW − (4 − π)r²)h, ${TABLE}`, ...printed('792274.33388'), got: () => moldVolumeBelow(rounded, 40) },
  {
    subject: 'rounded corners and draft together: 100×60 → 120×80, r 10, 50 high, mm³',
    source: 'prismoidal formula h(A₀ + 4Aₘ + A₁)/6, exact for a section quadratic in height (Newton; memory), by hand',
    ...printed('382374.629935'),
    got: () => moldVolumeBelow({ ...tapered, cornerRadiusMm: 10 }, 50),
  },
  { subject: 'corner radius of half the width: a stadium, 200×100 r 50, mm²', source: 'rectangle 100×100 and a circle r 50: 10000 + 2500π, by hand', ...printed('17853.981634'), got: () => moldAreaAt(boxMold(200, 100, 60, { cornerRadiusMm: 50 }), 30) },
  { subject: 'a box of 11 × 7 × 3 in holds a US gallon, mm³', source: '231 in³ by definition: NIST Handbook 44 appendix C', ...within(ROUNDING, 3785411.784), got: () => moldVolumeBelow(boxMold(11 * 25.4, 7 * 25.4, 3 * 25.4), 3 * 25.4) },
  { subject: 'level of 697433.5691 mm³ in the frustum, mm', source: `inverse of πh(R² + Rr + r²)/3, ${TABLE}`, expected: 80, tolerance: LEVEL_MM, got: () => moldLevelOf(frustum, 697433.5691) },
  { subject: 'level of 386666.6667 mm³ in the tapered box, mm', source: `inverse of the rectangular frustum, ${TABLE}`, expected: 50, tolerance: LEVEL_MM, got: () => moldLevelOf(tapered, 386666.6667) },
  { subject: 'level of 792274.33388 mm³ with rounded corners, mm', source: `inverse of (LW − (4 − π)r²)h, ${TABLE}`, expected: 40, tolerance: LEVEL_MM, got: () => moldLevelOf(rounded, 792274.33388) },
  { subject: 'a point 1 mm sideways out of a wall at 45° is √½ mm from it, mm', source: 'distance of a point from a plane, by hand', ...printed('0.70710678'), got: () => moldWallOvershoot(boxMold(200, 120, 60, { draftDeg: 45 }), 111, 0, 10) },
];
