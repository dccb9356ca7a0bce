/** Findings about damp air: pours that may cloud, films that keep the next pour from bonding, water that settles on cold things. */
import { dewPointC } from '../../cure/dew-point.ts';
import { roomAt } from '../../cure/equivalent-time.ts';
import { capital, plain } from '../../units/format.ts';
import { parseLocalTime } from '../../units/time.ts';
import type { Planned } from '../context.ts';
import { poursNamed } from '../pours-named.ts';
import type { Finding } from '../plan.ts';
import { blushOn, BLUSH_BELOW_C, BLUSH_HUMIDITY, DAMP_HUMIDITY, humidityAt } from './air.ts';

/** A mold, a piece and bottles lag behind a room that is being warmed, minutes (common practice, no source). */
const LAGS_MIN = 120;

/** Nothing where nobody measured the air. */
export function airFindings(planned: Planned): Finding[] {
  const { room } = planned.scene;
  if (room.humidity === undefined && room.profile.every(({ humidity }) => humidity === undefined)) return [];
  return [...dampPours(planned), ...blush(planned), ...coldThings(planned)];
}

function dampPours({ scene, pours }: Planned): Finding[] {
  const damp = pours.map((pour) => ({ pour, humidity: humidityAt(scene.room, parseLocalTime(pour.starts)!) ?? 0 })).filter(({ humidity }) => humidity > DAMP_HUMIDITY);
  if (damp.length === 0) return [];
  return [
    {
      code: 'damp-air',
      severity: 'caution',
      subject: 'room',
      message: `${capital(poursNamed(damp.map(({ pour }) => pour)))} ${damp.length === 1 ? 'is' : 'are'} poured in air of ${plain(Math.max(...damp.map(({ humidity }) => humidity)), 0)}\u00a0%. Over ${DAMP_HUMIDITY}\u00a0% resin may cloud, and damp paint or wood more so.`,
      remedy: 'Dry the air, or wait for a drier day. Warm the room, not the air alone, and keep the pour covered.',
      pours: damp.map(({ pour }) => pour.index),
    },
  ];
}

function blush({ scene, pours }: Planned): Finding[] {
  const filmed = pours.flatMap((pour) => {
    const found = blushOn(scene, pour);
    return found ? [{ pour, ...found }] : [];
  });
  if (filmed.length === 0) return [];
  const why = [filmed.some(({ cold }) => cold) ? `colder than ${BLUSH_BELOW_C}\u00a0°C` : '', filmed.some(({ damp }) => damp !== null) ? `damper than ${BLUSH_HUMIDITY}\u00a0%` : ''].filter(Boolean).join(' or ');
  const wet = pours.filter(({ route, index }) => route === 'wet-on-tacky' && filmed.some(({ pour }) => pour.index === index - 1));
  return [
    {
      code: 'blush',
      severity: 'caution',
      subject: 'room',
      message: `${capital(poursNamed(filmed.map(({ pour }) => pour)))} ${filmed.length === 1 ? 'sets' : 'set'} in air ${why}: a greasy film, amine blush, is likely on top.`,
      remedy: `Keep the room over ${BLUSH_BELOW_C}\u00a0°C and dry, without drafts. Wash the film off before you scuff.${wet.length > 0 ? ` Feel for it before ${poursNamed(wet)}: onto a film no pour bonds, so let it cure, wash and scuff instead.` : ''}`,
      pours: filmed.map(({ pour }) => pour.index),
    },
  ];
}

/** Bottles, and a mold in a room that was cold until a short while ago, against the dew point of the air they stand in. */
function coldThings({ scene, pours }: Planned): Finding[] {
  const { room, bench } = scene;
  const wet = pours.flatMap((pour) => {
    const at = parseLocalTime(pour.starts)!;
    const humidity = humidityAt(room, at);
    if (humidity === null) return [];
    const dewC = dewPointC(roomAt(room, at), humidity);
    const lately = [at - LAGS_MIN, ...room.profile.map(({ fromMin }) => fromMin).filter((from) => from > at - LAGS_MIN && from < at)].map((moment) => roomAt(room, moment));
    const moldC = Math.min(...lately);
    const bottlesC = bench.bottlesC ?? Infinity;
    return Math.min(moldC, bottlesC) < dewC ? [{ pour, dewC, what: bottlesC <= moldC ? 'the bottles' : 'the mold and what stands in it', isC: Math.min(moldC, bottlesC) }] : [];
  });
  if (wet.length === 0) return [];
  const worst = wet.reduce((a, b) => (b.dewC - b.isC > a.dewC - a.isC ? b : a));
  return [
    {
      code: 'condenses',
      severity: 'caution',
      subject: 'room',
      message: `Water settles on what is colder than ${plain(Math.ceil(worst.dewC), 0)}\u00a0°C in the air of ${poursNamed(wet.map(({ pour }) => pour))}, and ${worst.what} may be at ${plain(worst.isC)}\u00a0°C.`,
      remedy: 'Let everything come to the warmth of the room first, closed and wrapped, and wipe it dry. Water in resin stays cloudy.',
      pours: wet.map(({ pour }) => pour.index),
    },
  ];
}
