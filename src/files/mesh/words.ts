/** Walking a text file as bytes: no strings, no lines split off, so that one line of 50 MB is only 50 MB. */

import { quoted, type Fail } from '../fail.ts';
import { parseNumber } from './number.ts';
import { EXPORT_AGAIN } from './raw.ts';

export interface Cursor {
  readonly bytes: Uint8Array;
  /** The word found last is `bytes[from…at)`. */
  from: number;
  at: number;
}

const NEWLINE = 0x0a;
const RETURN = 0x0d;

/** A cursor at the first byte, behind a UTF-8 byte order mark if there is one. */
export function cursorOver(bytes: Uint8Array): Cursor {
  const start = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  return { bytes, from: start, at: start };
}

/** Moves to the next word, over line ends; false at the end of the text. */
export function nextWord(cursor: Cursor): boolean {
  const { bytes } = cursor;
  const end = bytes.length;
  let at = cursor.at;
  while (at < end && bytes[at] <= 0x20) at++;
  cursor.from = at;
  while (at < end && bytes[at] > 0x20) at++;
  cursor.at = at;
  return cursor.from < at;
}

/** Whether the word found last is `word` (lower case), in any case. */
export function wordIs(cursor: Cursor, word: string): boolean {
  const { bytes, from, at } = cursor;
  if (at - from !== word.length) return false;
  for (let i = 0; i < word.length; i++) {
    const c = bytes[from + i];
    if ((c >= 0x41 && c <= 0x5a ? c | 0x20 : c) !== word.charCodeAt(i)) return false;
  }
  return true;
}

/** The next word as a double; throws with its line when it is none. */
export function nextNumber(cursor: Cursor, what: string, fail: Fail): number {
  if (!nextWord(cursor)) throw fail(`the text ends inside ${what}`, 'a number', `The file is cut off; copy or export it again.`);
  const value = parseNumber(cursor.bytes, cursor.from, cursor.at);
  if (Number.isNaN(value)) throw fail(`"${wordText(cursor)}" in ${what} on line ${lineOf(cursor)}`, 'a number', EXPORT_AGAIN);
  return value;
}

/** Moves behind the end of the line. */
export function skipLine(cursor: Cursor): void {
  const { bytes } = cursor;
  const end = bytes.length;
  let at = cursor.at;
  while (at < end && bytes[at] !== NEWLINE && bytes[at] !== RETURN) at++;
  cursor.at = at;
}

/** The word found last, for a message. */
export function wordText(cursor: Cursor): string {
  return quoted(new TextDecoder().decode(cursor.bytes.subarray(cursor.from, Math.min(cursor.at, cursor.from + 200))));
}

/** The line of the word found last, from 1. For messages: it counts from the start of the file. */
export function lineOf(cursor: Cursor): number {
  const { bytes, from } = cursor;
  let line = 1;
  for (let i = 0; i < from; i++) {
    if (bytes[i] === NEWLINE || (bytes[i] === RETURN && bytes[i + 1] !== NEWLINE)) line++;
  }
  return line;
}
