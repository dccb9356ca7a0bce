/** Findings about the curing box: too warm for resin or for what stands in it, or of no use. */
import { plain } from '../../units/format.ts';
import type { Planned, PlannedPour } from '../context.ts';
import { limitOf } from '../findings-heat.ts';
import { poursNamed } from '../pours-named.ts';
import { warmth } from '../heat-words.ts';
import { materialWords } from '../../resin/material-words.ts';
import type { Finding } from '../plan.ts';
import { boxOf } from './boxed-room.ts';

/** Boxes are kept at 24 to 28 °C, never over this in the first half of a cure (common practice, no source). */
const USUAL_MOST_C = 30;
/** Resin that has cured in a room softens from here on (trade, from memory: 40 to 60 °C by class). No mold softens under 60 °C. */
const SOFT_FROM_C = 40;
/** What a box adds to a pour's warmest is told from here on, K; and only where it is no longer cool, °C. */
const TELLING_K = 2;
const COOL_C = 40;
const NBSP = '\u00a0';

export function boxFindings(planned: Planned): Finding[] {
  const { scene: { room }, pours } = planned;
  if (!room.box) return [];
  const boxed = pours.filter(({ box }) => box);
  if (boxed.length === 0) return [unused(boxOf(room) === null ? 'The curing box is never warmer than the room.' : 'Nothing has to wait long enough for the curing box.')];
  return [...tooWarm(boxed, room.box.temperatureC), ...softFigures(planned, boxed, room.box.temperatureC), ...hotter(boxed)];
}

function unused(message: string): Finding {
  return { code: 'box-unused', severity: 'note', subject: 'room.box', message: `${message} The plan does without it.`, remedy: 'Warm it to 24 to 28\u00a0°C to save days of curing, or take it out.' };
}

function tooWarm(boxed: readonly PlannedPour[], boxC: number): Finding[] {
  if (boxC <= USUAL_MOST_C) return [];
  const soft = boxC > SOFT_FROM_C;
  return [
    {
      code: 'box-too-warm',
      severity: soft ? 'halt' : 'caution',
      subject: 'room.box',
      message: soft
        ? `A box at ${plain(boxC)}${NBSP}°C softens resin that is not cured through: from about ${SOFT_FROM_C}${NBSP}°C on it sags and takes dents.`
        : `A box at ${plain(boxC)}${NBSP}°C is warmer than the ${USUAL_MOST_C}${NBSP}°C that fresh resin should have around it: its own heat comes on top.`,
      remedy: 'Set the box to 24 to 28\u00a0°C. If the label or the safety sheet names a lower limit, keep to it.',
      pours: boxed.map(({ index }) => index),
    },
  ];
}

function softFigures({ solids }: Planned, boxed: readonly PlannedPour[], boxC: number): Finding[] {
  return solids.flatMap(({ placement }): Finding[] => {
    const limitC = limitOf(placement);
    const around = boxed.filter(({ toMm }) => toMm > placement.baseMm);
    if (limitC === undefined || boxC < limitC || around.length === 0) return [];
    const typical = placement.limitC === undefined ? `, as ${materialWords(placement.material!)} typically does` : '';
    return [
      {
        code: 'box-too-warm',
        severity: 'halt',
        subject: placement.id,
        message: `${placement.name} stands ${plain(limitC)}${NBSP}°C${typical}, and the box is kept at ${plain(boxC)}${NBSP}°C.`,
        remedy: `Set the box below ${plain(limitC)}${NBSP}°C, or cure the piece in the room.`,
        pours: around.map(({ index }) => index),
      },
    ];
  });
}

/** Where the simulation finds that the box brings a pour's own heat back. */
function hotter(boxed: readonly PlannedPour[]): Finding[] {
  return boxed.flatMap((pour): Finding[] => {
    const { heat } = pour;
    if (!heat?.inRoomC || heat.rangeC[1] <= Math.max(COOL_C, heat.inRoomC[1] + TELLING_K)) return [];
    return [
      {
        code: 'box-warms',
        severity: 'caution',
        subject: `pour ${pour.index}`,
        message: `In the box ${poursNamed([pour])} may reach ${warmth(heat.rangeC)}; left in the room ${warmth(heat.inRoomC)}.`,
        remedy: 'Set the box cooler, or leave the pour in the room until it is hard.',
        pours: [pour.index],
      },
    ];
  });
}
