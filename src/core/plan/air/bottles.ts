/** Bottles that are not as warm as the room: what to mind. */
import { roomAt } from '../../cure/equivalent-time.ts';
import { plain } from '../../units/format.ts';
import { parseLocalTime } from '../../units/time.ts';
import type { Planned, PlannedPour } from '../context.ts';
import { poursNamed } from '../pours-named.ts';
import type { Finding } from '../plan.ts';

/** Water that bottles are warmed in is no warmer than this, °C (common practice, no source). */
const WARMEST_BATH_C = 40;
const NBSP = '\u00a0';

export function bottleFindings(planned: Planned): Finding[] {
  const { scene: { bench, room }, pours } = planned;
  const { bottlesC } = bench;
  if (bottlesC === undefined) return [];
  const warmed = pours.filter(({ mixC }) => mixC !== undefined);
  if (warmed.length > 0) return [warm(warmed, bottlesC)];
  if (pours.every(({ starts }) => roomAt(room, parseLocalTime(starts)!) <= bottlesC)) return [];
  return [
    {
      code: 'bottles-cold',
      severity: 'note',
      subject: 'bench.bottlesC',
      message: `Bottles at ${plain(bottlesC)}${NBSP}°C are colder than the room. No cup is planned to last longer for it.`,
      remedy: 'Let them come to the warmth of the room, closed: cold resin is thick and holds bubbles.',
    },
  ];
}

function warm(pours: readonly PlannedPour[], bottlesC: number): Finding {
  const tooWarm = bottlesC > WARMEST_BATH_C;
  return {
    code: 'bottles-warm',
    severity: 'caution',
    subject: 'bench.bottlesC',
    message: `${tooWarm ? `Bottles at ${plain(bottlesC)}${NBSP}°C are warmer than the ${WARMEST_BATH_C}${NBSP}°C that bottles are warmed to. ` : ''}Warm bottles for ${poursNamed(pours)} make the mix thin and quick: a cup has at least ${plain(Math.floor(Math.min(...pours.map(({ batches }) => batches[0].usableMin))), 0)} min, and it gets hot sooner.`,
    remedy: `Stand the closed bottles in water of 30 to ${WARMEST_BATH_C}${NBSP}°C for 10 to 20 min before you mix, then dry them. Never warm resin that is mixed.`,
    pours: pours.map(({ index }) => index),
  };
}
