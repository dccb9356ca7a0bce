/** Findings about the person's own week: a longer day that buys days, a wanted finish. */
import type { BenchException } from '../../scene/scene.ts';
import { span } from '../../units/format.ts';
import { formatLocalTime, MINUTES_PER_DAY } from '../../units/time.ts';
import { clockOf, dayAndTime, dayName } from '../../units/when.ts';
import type { Planned } from '../context.ts';
import type { Finding } from '../plan.ts';
import { wishFindings } from './wishes-kept.ts';

export function calendarFindings(planned: Planned): Finding[] {
  return [...wishFindings(planned), ...latest(planned), ...readyBy(planned), ...longer(planned), ...evenings(planned)];
}

function longer({ longerDay }: Planned): Finding[] {
  if (!longerDay) return [];
  const at = formatLocalTime(longerDay.atMin);
  const what = longerDay.side === 'later' ? 'Staying until' : 'Being there at';
  return [
    {
      code: 'longer-day',
      severity: 'note',
      subject: 'bench',
      message: `${what} ${clockOf(at)} on ${dayName(at)} would bring the end ${span(longerDay.savedMin)} closer.`,
      remedy: 'Give that day its own hours under the bench’s exceptions to plan with it.',
      ...whatIfOf(longerDay.exception),
    },
  ];
}

function evenings({ longerEvenings }: Planned): Finding[] {
  if (!longerEvenings) return [];
  const { extraMin, savedMin, hours } = longerEvenings;
  return [
    {
      code: 'longer-evenings',
      severity: 'note',
      subject: 'bench',
      message: `Staying ${span(extraMin)} longer every evening would bring the end ${span(savedMin)} closer.`,
      remedy: 'Lengthen the bench hours to plan with it.',
      ...(hours && { whatIf: `hours=${clockAt(hours.fromMin)}-${clockAt(hours.toMin)}` }),
    },
  ];
}

const clockAt = (minutes: number): string => clockOf(formatLocalTime(minutes));

/** A day of several stretches is no single change. */
function whatIfOf({ fromDay, hours }: BenchException): Pick<Finding, 'whatIf'> {
  if (hours.length !== 1) return {};
  return { whatIf: `hours:${formatLocalTime(fromDay * MINUTES_PER_DAY).slice(0, 10)}=${clockAt(hours[0].fromMin)}-${clockAt(hours[0].toMin)}` };
}

function latest({ scene, startIs }: Planned): Finding[] {
  const { readyByMin } = scene.bench;
  if (startIs !== 'latest' || readyByMin === undefined) return [];
  return [
    {
      code: 'start-latest',
      severity: 'note',
      subject: 'bench.start',
      message: `No first day is set, so it begins as late as still has it done by ${dayAndTime(formatLocalTime(readyByMin))}.`,
      remedy: 'Set the day and hour you begin, a few days sooner: a room that is colder than planned makes everything later.',
    },
  ];
}

function readyBy({ scene, wanted, goal, startIs }: Planned): Finding[] {
  // Where it begins as late as it can, that was said.
  if (startIs === 'latest') return [];
  // Where the finish is planned, it is the finished piece that is wanted: finishing tells of it.
  if (!wanted || scene.finishing) return [];
  const by = dayAndTime(formatLocalTime(wanted.readyByMin));
  if (wanted.latestStartMin !== null) {
    return [
      {
        code: 'ready-by',
        severity: 'note',
        subject: 'bench',
        message: `To have it by ${by}, start by ${dayAndTime(formatLocalTime(wanted.latestStartMin))}.`,
        remedy: 'Leave a few days: a room that is colder than planned makes everything later.',
      },
    ];
  }
  return [
    {
      code: 'ready-by',
      severity: 'caution',
      subject: 'bench',
      message: `It is done ${span(wanted.finishMin - wanted.readyByMin)} after ${by}, when you want it.`,
      remedy: goal === 'soonest' ? 'Start earlier, lengthen the bench hours, or choose a quicker formula.' : 'Start earlier, lengthen the bench hours, or plan for the soonest end.',
    },
  ];
}
