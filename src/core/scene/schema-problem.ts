/** A schema's complaint as one line for people: path, found, expected. */
import type * as v from 'valibot';
import { expectedAt, wordsOf, type Walkable } from './schema-walk.ts';

export interface Problem {
  /** `placements[1].shape.radiusMm`. */
  readonly path: string;
  readonly message: string;
}

/** What a schema has against a value: where, what was found and what it may be. */
export function problemOf(issue: v.BaseIssue<unknown>, schema: Walkable): Problem {
  const path = pathOf(issue.path ?? []);
  const expected = wordsOf(issue);
  if (issue.input === undefined) return { path, message: `is missing; expected ${expectedAt(schema, issue.path ?? []) ?? expected}.` };
  return { path, message: `found ${shown(issue.input)}; expected ${expected}.` };
}

function pathOf(path: readonly { readonly key?: unknown }[]): string {
  return path.reduce((text, { key }) => (typeof key === 'number' ? `${text}[${key}]` : text ? `${text}.${String(key)}` : String(key)), '');
}

/** A found value, short enough for a line. */
export function shown(input: unknown): string {
  if (input === '') return 'nothing';
  if (typeof input === 'number') return String(input);
  const text = Array.isArray(input) ? `a list of ${input.length}` : (JSON.stringify(input) ?? String(input));
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
