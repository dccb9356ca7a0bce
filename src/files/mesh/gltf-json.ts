/** Typed looks into a glTF document that may hold anything. */

import { described, grouped, type Fail } from '../fail.ts';
import { EXPORT_AGAIN } from './raw.ts';

export type Json = Readonly<Record<string, unknown>>;

export function objectOf(value: unknown, what: string, fail: Fail): Json {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw fail(`${what} is ${described(value)}`, 'an object', EXPORT_AGAIN);
  return value as Json;
}

/** A list; an absent one is empty. */
export function listOf(value: unknown, what: string, fail: Fail): readonly unknown[] {
  if (value === undefined) return [];
  if (!Array.isArray(value)) throw fail(`${what} is ${described(value)}`, 'a list', EXPORT_AGAIN);
  return value;
}

/** A whole number from 0 to `most`. */
export function whole(value: unknown, what: string, fail: Fail, most = Number.MAX_SAFE_INTEGER): number {
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 0 || value > most) {
    throw fail(`${what} is ${described(value)}`, most < 0 ? 'nothing, since there is none' : most === Number.MAX_SAFE_INTEGER ? 'a whole number' : `a whole number up to ${grouped(most)}`, EXPORT_AGAIN);
  }
  return value;
}

/** `count` finite numbers. */
export function numbersOf(value: unknown, count: number, what: string, fail: Fail): readonly number[] {
  if (!Array.isArray(value) || value.length !== count || !value.every((n) => typeof n === 'number' && Number.isFinite(n))) {
    throw fail(`${what} is ${described(value)}`, `${count} finite numbers`, EXPORT_AGAIN);
  }
  return value as number[];
}
