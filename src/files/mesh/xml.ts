/**
 * Walking XML as bytes, tag by tag, for the large and simple files of 3MF: no tree, no entities but the five
 * predefined and character references, no document type, bounded depth. Text between tags is passed over.
 * A tree-building parser takes about 1 kB a vertex; this takes nothing.
 * Source: XML 1.0 (Fifth Edition) §2 and §4.6.
 */

import { quoted, type Fail } from '../fail.ts';
import { MAX_XML_ATTRIBUTES, MAX_XML_DEPTH } from '../limits.ts';
import { parseNumber } from './number.ts';
import { EXPORT_AGAIN } from './raw.ts';

export interface XmlTag {
  /** As written, prefix included. */
  readonly name: string;
  /** The value of the attribute so named, else of one with that local name; undefined when absent. */
  text(attribute: string): string | undefined;
  /** The same as a double; NaN when absent or no number. */
  number(attribute: string): number;
}

export interface XmlVisitor {
  open(tag: XmlTag): void;
  close(name: string): void;
}

const LESS = 0x3c;
const GREATER = 0x3e;
const SLASH = 0x2f;
const EQUALS = 0x3d;
const COLON = 0x3a;
const CUT_OFF = 'The file is cut off or damaged; copy or export it again.';

/** Calls `visitor` for every tag in order; the tag it gets is only valid during the call. Linear time. */
export function walkXml(bytes: Uint8Array, visitor: XmlVisitor, fail: Fail): void {
  const end = bytes.length;
  const names = internedNames(bytes);
  const open: string[] = [];
  const attributes = attributeTable(bytes);
  const tag = { name: '', text: attributes.text, number: attributes.number };
  const broken = (found: string, expected: string): Error => fail(`${found} in its XML`, expected, CUT_OFF);

  let at = 0;
  for (;;) {
    at = bytes.indexOf(LESS, at);
    if (at < 0) break;
    at++;
    if (startsWith(bytes, at, '!--')) at = behind(bytes, at + 3, '-->');
    else if (startsWith(bytes, at, '![CDATA[')) at = behind(bytes, at + 8, ']]>');
    else if (bytes[at] === 0x3f) at = behind(bytes, at, '?>');
    else if (bytes[at] === 0x21) throw fail('a document type or entity in its XML', 'plain elements', 'This is not how 3MF is made; do not trust the file.');
    else if (bytes[at] === SLASH) {
      const to = nameEnd(bytes, at + 1);
      const name = names(at + 1, to);
      if (open.pop() !== name) throw broken(`</${quoted(name)}> that closes nothing`, 'elements closed in order');
      visitor.close(name);
      at = bytes.indexOf(GREATER, to) + 1 || -1;
    } else {
      const to = nameEnd(bytes, at);
      if (to === at) throw broken('a "<" without a name', 'an element');
      tag.name = names(at, to);
      at = attributes.read(to, broken);
      if (at < 0) break;
      if (open.length >= MAX_XML_DEPTH) throw broken(`elements more than ${MAX_XML_DEPTH} deep`, 'fewer than ten');
      visitor.open(tag);
      if (bytes[at] === SLASH) {
        visitor.close(tag.name);
        at++;
      } else open.push(tag.name);
      if (at >= end || bytes[at] !== GREATER) throw broken(`<${quoted(tag.name)}> that is not closed`, '">"');
      at++;
    }
    if (at < 0) break;
  }
  if (at < 0 && open.length > 0) throw broken(`the text ends inside <${quoted(open[open.length - 1])}>`, 'its closing tag');
}

/** Spans of one tag's attributes: name from, name to, value from, value to. */
function attributeTable(bytes: Uint8Array) {
  const spans = new Int32Array(4 * MAX_XML_ATTRIBUTES);
  let count = 0;

  const find = (attribute: string): number => {
    for (const prefixed of [false, true]) {
      for (let i = 0; i < 4 * count; i += 4) {
        const length = spans[i + 1] - spans[i];
        const skip = length - attribute.length;
        if (prefixed ? skip < 2 || bytes[spans[i] + skip - 1] !== COLON : skip !== 0) continue;
        if (startsWith(bytes, spans[i] + skip, attribute)) return i;
      }
    }
    return -1;
  };

  return {
    /** Reads up to the tag's `/` or `>` and says where that is; -1 when the text ends before. */
    read(from: number, broken: (found: string, expected: string) => Error): number {
      const end = bytes.length;
      count = 0;
      let at = from;
      for (;;) {
        while (at < end && bytes[at] <= 0x20) at++;
        if (at >= end) throw broken('a tag that is cut off', '">"');
        if (bytes[at] === GREATER || bytes[at] === SLASH) return at;
        if (count >= MAX_XML_ATTRIBUTES) throw broken(`more than ${MAX_XML_ATTRIBUTES} attributes`, 'fewer');
        const to = nameEnd(bytes, at);
        let quote = to;
        while (quote < end && bytes[quote] <= 0x20) quote++;
        if (to === at || bytes[quote] !== EQUALS) throw broken('an attribute without a value', 'name="value"');
        quote++;
        while (quote < end && bytes[quote] <= 0x20) quote++;
        if (bytes[quote] !== 0x22 && bytes[quote] !== 0x27) throw broken('an attribute without quotes', 'name="value"');
        const close = bytes.indexOf(bytes[quote], quote + 1);
        if (close < 0) throw broken('a quote that is not closed', 'its end');
        spans.set([at, to, quote + 1, close], 4 * count++);
        at = close + 1;
      }
    },
    text(attribute: string): string | undefined {
      const i = find(attribute);
      return i < 0 ? undefined : unescaped(new TextDecoder().decode(bytes.subarray(spans[i + 2], spans[i + 3])));
    },
    number(attribute: string): number {
      const i = find(attribute);
      if (i < 0) return NaN;
      let from = spans[i + 2];
      let to = spans[i + 3];
      while (from < to && bytes[from] <= 0x20) from++;
      while (from < to && bytes[to - 1] <= 0x20) to--;
      return parseNumber(bytes, from, to);
    },
  };
}

/** Names as strings, each made once: a model says `vertex` a million times. */
function internedNames(bytes: Uint8Array): (from: number, to: number) => string {
  const known: string[] = [];
  const most = 64;
  return (from, to) => {
    for (const name of known) if (name.length === to - from && startsWith(bytes, from, name)) return name;
    const name = new TextDecoder().decode(bytes.subarray(from, to));
    if (known.length < most) known.push(name);
    return name;
  };
}

/** Behind the next `mark`, or -1. */
function behind(bytes: Uint8Array, from: number, mark: string): number {
  const first = mark.charCodeAt(0);
  for (let at = bytes.indexOf(first, from); at >= 0; at = bytes.indexOf(first, at + 1)) if (startsWith(bytes, at, mark)) return at + mark.length;
  return -1;
}

function startsWith(bytes: Uint8Array, at: number, text: string): boolean {
  for (let i = 0; i < text.length; i++) if (bytes[at + i] !== text.charCodeAt(i)) return false;
  return true;
}

function nameEnd(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length && bytes[at] > 0x20 && bytes[at] !== GREATER && bytes[at] !== SLASH && bytes[at] !== EQUALS && bytes[at] !== LESS) at++;
  return at;
}

const ENTITIES: Readonly<Record<string, string>> = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" };

function unescaped(text: string): string {
  if (!text.includes('&')) return text;
  return text.replace(/&(?:#x([0-9a-f]{1,6})|#(\d{1,7})|(\w{1,8}));/gi, (whole, hex?: string, decimal?: string, name?: string) => {
    if (name) return ENTITIES[name] ?? whole;
    const code = hex ? parseInt(hex, 16) : Number(decimal);
    return code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}

/** A required number out of a tag. */
export function requiredNumber(tag: XmlTag, attribute: string, fail: Fail): number {
  const value = tag.number(attribute);
  if (Number.isNaN(value)) throw fail(`<${quoted(tag.name)}> with ${attribute}="${quoted(tag.text(attribute) ?? '')}"`, 'a number', EXPORT_AGAIN);
  return value;
}
