/** The air and the bottles: water vapor against published tables, warmth against the bench's rule. */
import { dewPointC } from '../../src/core/cure/dew-point.ts';
import { planOf, scene } from '../plan/planning.ts';
import { within, type EvidenceRow } from './evidence-row.ts';

const ASHRAE = '2017 ASHRAE Handbook, Fundamentals, ch. 1, table 3, as an open psychrometric library’s tests quote it; the formula’s own error of 0.4 % (Alduchov & Eskridge 1996)';
/** °C: 0.4 % of the pressure, what the formula's authors state, at 6 % per °C near room temperature. */
const MAGNUS_C = 0.07;
const ROUNDING = 1e-12;
const DOUBLING = 'rate doubles per 10 °C (common practice, no source; physics §4)';
const usable = (bottlesC?: number) => planOf(scene({ fillMm: 20, room: { temperatureC: 25 }, bench: bottlesC === undefined ? {} : { bottlesC } })).pours[0].batches[0].usableMin;

export const rows: readonly EvidenceRow[] = [
  { subject: 'dew point of air at 50 °C that holds the 31.697 hPa of saturated air at 25 °C, of 123.513, °C', source: ASHRAE, expected: 25, tolerance: 2 * MAGNUS_C, got: () => dewPointC(50, (100 * 31.697) / 123.513) },
  { subject: 'dew point of air at 25 °C and 80 %, °C', source: 'the same library’s published example by the ASHRAE equations', expected: 21.3094, tolerance: MAGNUS_C, got: () => dewPointC(25, 80) },
  { subject: 'dew point of air at 20 °C and 60 %, °C', source: 'WMO-No. 8, annex 4.B: 6.112 exp(17.62 t/(243.12 + t)), by hand (coefficients from memory)', expected: 11.995, tolerance: MAGNUS_C, got: () => dewPointC(20, 60) },
  { subject: 'dew point of saturated air at 17 °C, °C', source: 'its own temperature, by definition', ...within(ROUNDING, 17), got: () => dewPointC(17, 100) },
  { subject: 'usable minutes from bottles at 35 °C over those from the room’s 25 °C', source: `half; ${DOUBLING}`, ...within(ROUNDING, 0.5), got: () => usable(35) / usable() },
  { subject: 'minutes of curing in a box at 33 °C after 10 of 36 label hours at 23 °C', source: `26 h left at twice the speed: 13 h, 780 min, by hand; ${DOUBLING}`, expected: 780, tolerance: 0.5, got: () => minutesInBox() },
];

/** Poured 08:00 to 08:30, tacky at 18:30 and carried in, scuffable then. */
function minutesInBox(): number {
  const [{ box, scuffable }] = planOf(scene({ fillMm: 40, placements: [{ id: 'p', kind: 'plane', atMm: 20 }], room: { temperatureC: 23, box: { temperatureC: 33 } } })).pours;
  return (Date.parse(`${scuffable}Z`) - Date.parse(`${box!.from}Z`)) / 60_000;
}
