/** Calendar and table files against the words of their standards, and read back by a library that knows nothing of ours. */
import ICAL from 'ical.js';
import { calendarFile } from '../../src/files/calendar.ts';
import { dateTime, property, text, utc } from '../../src/files/calendar-lines.ts';
import { csv } from '../../src/files/csv.ts';
import { planOf, scene } from '../plan/planning.ts';
import type { EvidenceRow } from './evidence-row.ts';

const exact = (subject: string, source: string, expected: EvidenceRow['expected'], got: () => number | string): EvidenceRow => ({ subject, source, expected, tolerance: 0, got });
const NOTED = Date.UTC(1998, 0, 19, 7);
const LONG = `${'Weiße Seerosen, 20 mm; '.repeat(40)}🐟`;

const plan = () => planOf({ ...scene({ fillMm: 44 }), name: LONG });
const read = () => new ICAL.Component(ICAL.parse(calendarFile(plan(), { piece: 'a', madeMs: NOTED }))).getAllSubcomponents('vevent');

export const rows: readonly EvidenceRow[] = [
  exact('text of a calendar entry, escaped', 'RFC 5545 §3.3.11, its example', 'Project XYZ Final Review\\nConference Room - 3B\\nCome Prepared.', () => text('Project XYZ Final Review\nConference Room - 3B\nCome Prepared.')),
  exact('a floating local time', 'RFC 5545 §3.3.5, form 1, its example', '19980118T230000', () => dateTime('1998-01-18T23:00')),
  exact('a time in UTC', 'RFC 5545 §3.3.5, form 2, its example', '19980119T070000Z', () => utc(NOTED)),
  exact('octets of the longest line of a description of 940 letters', 'RFC 5545 §3.1: at most 75', 75, () => Math.max(...property('DESCRIPTION', text(LONG)).split('\r\n').map((line) => Buffer.byteLength(line)))),
  exact('starts of all steps, as ical.js reads them', 'ical.js 2.2.1', () => read().slice(0, plan().steps.length).map((entry) => String(entry.getFirstPropertyValue('dtstart')).slice(0, 16)).join(' '), () => plan().steps.map(({ from }) => from).join(' ')),
  exact('name of the piece in the first entry, as ical.js reads it', 'ical.js 2.2.1', () => String(read()[0].getFirstPropertyValue('summary')).slice(0, LONG.length), () => LONG),
  exact('a table with a line break and a quote', 'RFC 4180 §2, its examples 6 and 7', '"aaa","b\r\nbb","ccc"\r\n"aaa","b""bb","ccc"\r\n'.replace(/"(aaa|ccc)"/g, '$1'), () => csv([['aaa', 'b\r\nbb', 'ccc'], ['aaa', 'b"bb', 'ccc']])),
];
