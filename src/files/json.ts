/**
 * JSON that a person may have typed: every refusal names line and column, and nothing is ambiguous.
 * `JSON.parse` says where it stumbled in some engines only, keeps the last of two equal keys in silence, and
 * recurses as deep as the text asks; so the text is checked first, in one pass without recursion.
 * Source of the grammar: RFC 8259.
 */

import { quoted, type Fail } from './fail.ts';
import { MAX_JSON_DEPTH } from './limits.ts';

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
const WORD = /[-+\w.$]+/y;
const ESCAPE = /\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/y;
const BLANK = /[ \t\r\n]*/y;

/**
 * Parses `text`. Throws what `fail` makes for anything that is not JSON, for a key used twice in one object and
 * for more than MAX_JSON_DEPTH brackets inside each other. `1e999` is JSON and becomes Infinity.
 */
export function parseStrictJson(text: string, fail: Fail): unknown {
  checkJson(text, fail);
  return JSON.parse(text);
}

function checkJson(text: string, fail: Fail): void {
  /** One per open bracket: the keys so far of an object, null for a list. */
  const open: (Set<string> | null)[] = [];
  let at = 0;

  const refuse = (found: string, expected: string, remedy: string): Error => fail(`${found} at ${lineAndColumn(text, at)}`, expected, remedy);
  const unexpected = (expected: string): Error =>
    at >= text.length ? refuse('the text ends', expected, 'The file is cut off; save or export it again.') : refuse(found(text, at), expected, hint(text, at));
  const skipBlank = (): void => void (at = match(BLANK, text, at));

  const string = (): string => {
    const from = at++;
    for (;;) {
      const c = text.charCodeAt(at);
      if (Number.isNaN(c)) throw refuse('a text that is not closed', 'a closing "', 'Close it, or save the file again.');
      if (c === 0x22) break;
      if (c < 0x20) throw refuse('a line break or control character inside a text', '\\n or \\t in its place', 'Replace it.');
      const next = c === 0x5c ? match(ESCAPE, text, at) : at + 1;
      if (next < 0) throw refuse(`an escape that JSON does not have ("${quoted(text.slice(at, at + 2))}")`, '\\" \\\\ \\/ \\b \\f \\n \\r \\t or \\u and four digits', 'Write \\\\ for a backslash.');
      at = next;
    }
    at++;
    return text.slice(from, at);
  };
  const key = (): void => {
    if (text[at] !== '"') throw unexpected('a name in double quotes');
    const start = at;
    const raw = string();
    const name = raw.includes('\\') ? (JSON.parse(raw) as string) : raw.slice(1, -1);
    const keys = open[open.length - 1]!;
    if (keys.has(name)) {
      at = start;
      throw refuse(`"${quoted(name)}" is given twice`, 'each name once in an object', 'Take one out; it is not clear which one is meant.');
    }
    keys.add(name);
    skipBlank();
    if (text[at] !== ':') throw unexpected('a colon after the name');
    at++;
  };

  for (;;) {
    skipBlank();
    const c = text[at];
    let opened = false;
    if (c === '{' || c === '[') {
      if (open.length >= MAX_JSON_DEPTH) throw refuse(`brackets more than ${MAX_JSON_DEPTH} deep`, 'a scene, which needs six', 'This was not made as a scene; check the file.');
      open.push(c === '{' ? new Set() : null);
      at++;
      skipBlank();
      if (text[at] !== (c === '{' ? '}' : ']')) {
        if (c === '{') key();
        opened = true;
      }
    } else if (c === '"') string();
    else {
      const end = match(NUMBER, text, at);
      const wordEnd = match(WORD, text, at);
      const word = wordEnd < 0 ? '' : text.slice(at, wordEnd);
      if (word !== 'true' && word !== 'false' && word !== 'null' && (end < 0 || end !== wordEnd)) throw unexpected('a value');
      at = wordEnd;
    }
    if (opened) continue;

    // A value has ended (or an empty bracket is about to close): close brackets until there is a comma.
    for (;;) {
      skipBlank();
      if (open.length === 0) {
        if (at < text.length) throw unexpected('the end of the text');
        return;
      }
      const keys = open[open.length - 1];
      if (text[at] === (keys ? '}' : ']')) {
        open.pop();
        at++;
        continue;
      }
      if (text[at] !== ',') throw unexpected(keys ? 'a comma or }' : 'a comma or ]');
      at++;
      skipBlank();
      if (keys) key();
      break;
    }
  }
}

/** Where a sticky pattern that begins at `at` ends, or -1. */
function match(pattern: RegExp, text: string, at: number): number {
  pattern.lastIndex = at;
  return pattern.test(text) ? pattern.lastIndex : -1;
}

function found(text: string, at: number): string {
  const end = match(WORD, text, at);
  return `"${quoted(end < 0 ? text.slice(at, at + 1) : text.slice(at, Math.min(end, at + 40)))}"`;
}

function hint(text: string, at: number): string {
  const rest = text.slice(at, at + 10);
  if (/^[-+]?(?:NaN|Infinity|inf)/i.test(rest)) return 'JSON has numbers only; give a finite one.';
  if (/^\/[/*]/.test(rest)) return 'JSON has no comments; take it out.';
  if (/^'/.test(rest)) return 'Use double quotes.';
  if (/^[}\]]/.test(rest)) return 'Take out the comma before it, or add what is missing.';
  return 'Correct it there.';
}

function lineAndColumn(text: string, at: number): string {
  let line = 1;
  let start = 0;
  for (let newline = text.indexOf('\n'); newline >= 0 && newline < at; newline = text.indexOf('\n', start)) {
    line++;
    start = newline + 1;
  }
  return `line ${line}, column ${at - start + 1}`;
}
