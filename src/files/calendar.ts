/**
 * A plan as a calendar file, RFC 5545: one entry a step and one for every span in which a surface takes the
 * next pour, in floating local times. An entry keeps its UID from export to export, so that a later export
 * replaces it; what a later plan no longer has is cancelled, not left standing.
 */
import { workName } from '../core/plan/finishing/finish-lines.ts';
import { doNotPour } from '../core/plan/halts.ts';
import type { Plan, Pour, Step } from '../core/plan/plan.ts';
import { parseLocalTime } from '../core/units/time.ts';
import { dayAndTime } from '../core/units/when.ts';
import { alarm, component, dateTime, earlierEntries, property, text, utc, type EarlierEntry } from './calendar-lines.ts';

export interface CalendarRequest {
  /** Tells the person's pieces apart in one calendar: the same one gives the same UIDs. */
  readonly piece: string;
  /** When it is made, ms since 1970 UTC; later exports replace earlier ones by it. */
  readonly madeMs: number;
  /** The file that an earlier export wrote, where there is one: what is no longer planned is cancelled. */
  readonly earlier?: string;
}

/** Reminders before the last moment of a window, minutes. */
const BEFORE_WINDOW_CLOSES_MIN = [120, 30];
/** Reminder before a pour, minutes: time to level, warm and weigh. */
const BEFORE_POUR_MIN = 60;
/** SEQUENCE counts seconds from here, so that it grows and fits 31 bits until 2088. */
const SEQUENCE_FROM_MS = Date.UTC(2020, 0, 1);

/** Of the whole piece, whichever pour is its last. */
const PIECE_DONE: readonly Step['kind'][] = ['demold', 'finish'];

interface Entry {
  readonly uid: string;
  readonly from: string;
  readonly to: string;
  readonly summary: string;
  readonly about: string;
  /** Hands are needed; else it is only waiting. */
  readonly busy: boolean;
  readonly alarms: readonly string[];
}

/** The calendar file's text. */
export function calendarFile(plan: Plan, { piece, ...request }: CalendarRequest): string {
  return calendarOfPieces([{ plan, piece }], plan.scene, request);
}

/** One calendar for several pieces, each with UIDs of its own. */
export function calendarOfPieces(pieces: readonly { readonly plan: Plan; readonly piece: string }[], name: string, { madeMs, earlier }: Omit<CalendarRequest, 'piece'>): string {
  const entries = pieces.flatMap(({ plan, piece }) => [...plan.steps.map(stepEntry(plan, piece)), ...plan.pours.flatMap((pour) => windowEntry(plan, pour, piece))]);
  const stamp = [property('DTSTAMP', utc(madeMs)), property('SEQUENCE', String(Math.max(0, Math.floor((madeMs - SEQUENCE_FROM_MS) / 1000))))];
  const planned = new Set(entries.map(({ uid }) => uid));
  const ours = pieces.map(({ piece }) => uidStart(piece));
  const gone = earlier === undefined ? [] : earlierEntries(earlier).filter(({ uid }) => ours.some((start) => uid.startsWith(start)) && !planned.has(uid));
  return component('VCALENDAR', [
    property('VERSION', '2.0'),
    property('PRODID', '-//Stillpool//Pour plan//EN'),
    property('CALSCALE', 'GREGORIAN'),
    property('NAME', text(name)),
    ...entries.map((entry) => event(entry, stamp)),
    ...gone.map((entry) => cancelled(entry, stamp)),
  ]);
}

function stepEntry(plan: Plan, piece: string): (step: Step) => Entry {
  const seen = new Map<string, number>();
  return (step) => {
    const what = finishKey(step) ?? (PIECE_DONE.includes(step.kind) ? step.kind : `${step.kind}-${step.pour ?? 'first'}`);
    const count = (seen.get(what) ?? 0) + 1;
    seen.set(what, count);
    const coating = step.finishing?.work === 'coat';
    const halt = haltOn(plan, step.pour) ?? (coating ? (plan.finishing?.coatHalt ?? null) : null);
    return {
      uid: uidOf(piece, `${what}-${count}`),
      from: step.from,
      to: step.to,
      summary: marked(halt, `${plan.scene}: ${step.class === 'in' ? 'in the class, ' : ''}${titleOf(step)}`),
      about: aboutOf(plan, halt, step.text),
      busy: step.kind !== 'wait' && step.kind !== 'dry',
      alarms: halt === null && (step.kind === 'pour' || coating) ? [alarm(`-PT${BEFORE_POUR_MIN}M`, `${plan.scene}: ${titleOf(step)} at ${dayAndTime(step.from)}`)] : [],
    };
  };
}

/** Out of the mold and finished are what they are without a planned finish, so that planning one moves them. */
function finishKey({ finishing }: Step): string | null {
  if (!finishing || finishing.work === 'demold' || finishing.work === 'done') return null;
  return `finishing-${finishing.work}${finishing.face ? `-${finishing.face}` : ''}`;
}

/** The span in which a pour can go onto the tacky one below. */
function windowEntry(plan: Plan, pour: Pour, piece: string): Entry[] {
  if (pour.route !== 'wet-on-tacky') return [];
  const below = plan.pours[pour.index - 2];
  const last = pour.latestStart ?? below.closes;
  const halt = haltOn(plan, pour.index);
  const summary = `${plan.scene}: pour ${below.index} is tacky, pour ${pour.index} can go on`;
  const minutes = (parseLocalTime(last) ?? 0) - (parseLocalTime(below.opens) ?? 0);
  const warnings = BEFORE_WINDOW_CLOSES_MIN.filter((before) => before < minutes);
  return [
    {
      uid: uidOf(piece, `window-${pour.index}`),
      from: below.opens,
      to: last,
      summary: marked(halt, summary),
      about: aboutOf(plan, halt, `Start pour ${pour.index} by ${dayAndTime(last)} at the latest. After that pour ${below.index} has to cure until it sands to powder, and be washed, scuffed and wiped first.`),
      busy: false,
      alarms: halt === null ? warnings.map((before) => alarm(`-PT${before}M`, `${plan.scene}: last moment for pour ${pour.index} is ${dayAndTime(last)}`, 'END')) : [],
    },
  ];
}

/** Why a step may not be done: a halt on its pour, or, before the first pour, on every pour. */
function haltOn({ findings }: Plan, pour: number | null): string | null {
  if (pour !== null) return doNotPour(findings, pour);
  return doNotPour(findings.filter(({ pours }) => pours === undefined), 0);
}

function marked(halt: string | null, summary: string): string {
  return halt === null ? summary : `DO NOT POUR. ${summary}`;
}

/** A halt elsewhere in the plan is told in every entry. */
function aboutOf({ findings }: Plan, halt: string | null, words: string): string {
  if (halt !== null) return words.startsWith(halt) ? words : `${halt}\n${words}`;
  const others = findings.filter(({ severity }) => severity === 'halt').map(({ message }) => message);
  return others.length === 0 ? words : `This plan has a reason not to pour: ${others.join(' ')}\n${words}`;
}

const TITLES: Readonly<Record<Step['kind'], string>> = {
  prepare: 'get ready', place: 'set in place for pour', pour: 'pour', wait: 'wait, pour', scuff: 'scuff pour', move: 'into the box, pour', paint: 'paint on pour', dry: 'let dry on pour', demold: 'out of the mold', finish: 'finish',
};

function titleOf({ kind, pour, text: words, finishing }: Step): string {
  if (finishing) return workName(finishing);
  if (kind === 'prepare') return words.startsWith('Test cup') ? 'test cup' : TITLES.prepare;
  if (kind === 'demold' || kind === 'finish') return TITLES[kind];
  if (pour === null) return { scuff: 'scuff', paint: 'paint the floor', dry: 'let the floor dry' }[kind as string] ?? kind;
  return `${TITLES[kind]} ${pour}`;
}

function event({ uid, from, to, summary, about, busy, alarms }: Entry, stamp: readonly string[]): string {
  return component('VEVENT', [
    property('UID', uid),
    ...stamp,
    property('DTSTART', dateTime(from)),
    ...(to > from ? [property('DTEND', dateTime(to))] : []),
    property('SUMMARY', text(summary)),
    property('DESCRIPTION', text(about)),
    property('TRANSP', busy ? 'OPAQUE' : 'TRANSPARENT'),
    ...alarms,
  ]);
}

function cancelled({ uid, start, summary }: EarlierEntry, stamp: readonly string[]): string {
  return component('VEVENT', [property('UID', uid), ...stamp, property('DTSTART', start), property('SUMMARY', summary), property('STATUS', 'CANCELLED'), property('TRANSP', 'TRANSPARENT')]);
}

const uidOf = (piece: string, what: string): string => `${uidStart(piece)}${what}@stillpool`;

/** Letters that a UID may hold anywhere, so that any name of a piece gives one of its own. */
function uidStart(piece: string): string {
  return `${[...new TextEncoder().encode(piece)].map((byte) => byte.toString(16).padStart(2, '0')).join('')}-`;
}
