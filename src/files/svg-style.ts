/**
 * Which parts of a drawing are painted: presentation attributes, `style` attributes and plain rules of its style sheets
 * (an element, a class, an id, or these together). Source: SVG 1.1 §6, CSS 2.1 §6.4 for what wins.
 */

interface StyleRule {
  readonly tag: string | null;
  readonly id: string | null;
  readonly classes: readonly string[];
  /** Ids count 100, classes 10, elements 1. */
  readonly weight: number;
  readonly order: number;
  readonly declared: ReadonlyMap<string, string>;
}

/** Rules by what their elements must be: `#id`, `.class`, a name, or `*`. */
export type StyleRules = ReadonlyMap<string, readonly StyleRule[]>;

export interface Styled {
  readonly name: string;
  readonly id?: string;
  readonly classes?: string;
  readonly style?: string;
  /** A presentation attribute. */
  readonly attribute: (property: string) => string | undefined;
}

/** What the children of an element get from it, as it is before anything is said. */
const FIRST = {
  fill: 'black', stroke: 'none', 'stroke-width': '1', 'fill-rule': 'nonzero', 'clip-rule': 'nonzero', visibility: 'visible', color: 'black', 'fill-opacity': '1', 'stroke-opacity': '1',
  'stroke-linejoin': 'miter', 'stroke-linecap': 'butt', 'stroke-miterlimit': '4', 'stroke-dasharray': 'none', 'stroke-dashoffset': '0', 'paint-order': 'normal',
  'marker-start': 'none', 'marker-mid': 'none', 'marker-end': 'none',
};

export type Paint = Readonly<typeof FIRST>;

export const FIRST_PAINT: Paint = FIRST;

const INHERITED = Object.keys(FIRST) as (keyof Paint)[];

/** Properties that are asked for; all may stand as attributes. */
export const STYLED = [...INHERITED, 'transform', 'transform-origin', 'display', 'opacity', 'clip-path', 'mask', 'mask-type', 'filter', 'overflow', 'vector-effect', 'marker'] as const;

const MOST_RULES = 5_000;

/** Rules that can be told from a style sheet; others (`:hover`, `g > path`, `@media print`) are passed over. */
export function rulesOf(css: string): StyleRules {
  const rules = new Map<string, StyleRule[]>();
  let count = 0;
  for (const [selectors, body] of blocksOf(css)) {
    const declared = declarations(body);
    for (const selector of selectors.split(',')) {
      const found = /^(\*|[a-z][\w-]*)?((?:[.#][\w-]+)*)$/i.exec(selector.trim());
      if (!found || (!found[1] && !found[2]) || count >= MOST_RULES) continue;
      const tag = found[1] && found[1] !== '*' ? found[1] : null;
      const ids = [...found[2].matchAll(/#([\w-]+)/g)].map(([, name]) => name);
      const classes = [...found[2].matchAll(/\.([\w-]+)/g)].map(([, name]) => name);
      const key = ids[0] !== undefined ? `#${ids[0]}` : classes[0] !== undefined ? `.${classes[0]}` : (tag ?? '*');
      const rule: StyleRule = { tag, id: ids[0] ?? null, classes, weight: 100 * ids.length + 10 * classes.length + (tag ? 1 : 0), order: count++, declared };
      rules.set(key, [...(rules.get(key) ?? []), rule]);
    }
  }
  return rules;
}

/** Media within media; nobody draws so. */
const MOST_NESTED = 10;

/** Selectors and bodies, in the order they stand. */
function blocksOf(css: string, deep = 0): [string, string][] {
  const blocks: [string, string][] = [];
  const plain = css.split('/*').map((part, i) => (i === 0 ? part : part.includes('*/') ? part.slice(part.indexOf('*/') + 2) : '')).join(' ');
  let from = 0;
  for (const { 0: mark, index } of plain.matchAll(/[{};]/g)) {
    if (index < from) continue;
    const head = plain.slice(from, index).trim();
    if (mark !== '{') from = index + 1;
    else {
      const end = closing(plain, index);
      const body = plain.slice(index + 1, end);
      if (/^@media\s+(?:all|screen)$/i.test(head)) {
        if (deep < MOST_NESTED) for (const block of blocksOf(body, deep + 1)) blocks.push(block);
      } else if (!head.startsWith('@')) blocks.push([head, body]);
      from = end + 1;
    }
  }
  return blocks;
}

/** Where the brace that opens at `from` closes, or the end. */
function closing(text: string, from: number): number {
  const braces = /[{}]/g;
  braces.lastIndex = from;
  let deep = 0;
  for (let found = braces.exec(text); found; found = braces.exec(text)) {
    deep += found[0] === '{' ? 1 : -1;
    if (deep === 0) return found.index;
  }
  return text.length;
}

function declarations(text: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const part of text.split(';')) {
    const colon = part.indexOf(':');
    if (colon > 0) found.set(part.slice(0, colon).trim().toLowerCase(), part.slice(colon + 1).replace(/!\s*important/i, '').trim());
  }
  return found;
}

export type Own = (property: (typeof STYLED)[number]) => string | undefined;

/** A property's own value of an element, or undefined where it says nothing. */
export function declared(element: Styled, rules: StyleRules): Own {
  const inline = element.style === undefined ? null : declarations(element.style);
  const classes = element.classes?.trim().split(/\s+/) ?? [];
  const near = [...new Set(['*', element.name, ...classes.map((name) => `.${name}`), `#${element.id}`])].flatMap((key) => rules.get(key) ?? []);
  const fitting = near
    .filter(({ tag, id, classes: wanted }) => (!tag || tag === element.name) && (!id || id === element.id) && wanted.every((name) => classes.includes(name)))
    .sort((a, b) => b.weight - a.weight || b.order - a.order);
  return (property) => inline?.get(property) ?? fitting.find((rule) => rule.declared.has(property))?.declared.get(property) ?? element.attribute(property)?.trim();
}

/** What an element is painted with under its parent. */
export function paintOf(own: Own, parent: Paint): Paint {
  const said = INHERITED.map((key) => [key, own(key) ?? (key.startsWith('marker-') ? own('marker') : undefined)] as const).filter(([, value]) => value !== undefined && value !== 'inherit');
  return said.length === 0 ? parent : { ...parent, ...Object.fromEntries(said) };
}

/** The id that `url(#id)` names. */
export const referenceIn = (value: string | undefined): string | null => /^url\(\s*["']?\s*#([^"')]{1,500}?)\s*["']?\s*\)/i.exec(value ?? '')?.[1] ?? null;

/** A color as it is meant: `currentColor` is the color of the text. */
const meant = (value: string, color: string): string => (value.toLowerCase() === 'currentcolor' ? color : value).trim().toLowerCase();

/** Whether a fill or a stroke leaves anything to see; `exists`: a gradient or pattern of that name. */
export function isPainted(value: string, opacity: string, { color, exists }: { color: string; exists: (id: string) => boolean }): boolean {
  const paint = meant(value, color);
  const server = referenceIn(value);
  // SVG 2 §13.2: a reference to nothing, or out of the drawing, paints what stands behind it, else nothing.
  if (/^url\(/i.test(value) && (server === null || !exists(server))) {
    const behind = value.replace(/^url\([^)]*\)?/i, '').trim();
    // One color may stand behind a reference, no further reference.
    return !/^url\(/i.test(behind) && isPainted(behind, opacity, { color, exists });
  }
  if (paint === 'none' || paint === 'transparent' || paint === '') return false;
  if (/^#(?:[\da-f]{6}00|[\da-f]{3}0)$/.test(paint) || alphaOf(paint) === 0) return false;
  return !isZero(opacity);
}

/** 1 of white, 0 of black, each opaque; else null. */
export function toneOf(value: string, color: string): 0 | 1 | null {
  const paint = meant(value, color).replace(/\s+/g, '');
  if (/^(?:white|#fff|#ffff|#ffffff|#ffffffff|rgb\(255,255,255\)|rgb\(100%,100%,100%\))$/.test(paint)) return 1;
  return /^(?:black|#000|#000f|#000000|#000000ff|rgb\(0,0,0\)|rgb\(0%,0%,0%\))$/.test(paint) ? 0 : null;
}

/** Whether a color lets nothing through; of gradients and patterns that is not known. */
export const isOpaque = (value: string, opacity: string, color: string): boolean =>
  isWhole(opacity) && alphaOf(meant(value, color)) === 1 && !/^#(?:[\da-f]{4}|[\da-f]{8})$|^url\(/.test(meant(value, color));

/** The last of four numbers of `rgba(…)`, or what stands behind a slash; 1 where none does. */
function alphaOf(color: string): number {
  const inside = /^(?:rgba?|hsla?)\(([^)]{0,200})\)$/.exec(color)?.[1];
  if (inside === undefined) return 1;
  const parts = inside.split(/[,/]/);
  const last = inside.includes('/') || parts.length === 4 ? parts[parts.length - 1].trim() : '1';
  return last.endsWith('%') ? parseFloat(last) / 100 : parseFloat(last);
}

const shareOf = (opacity: string): number => parseFloat(opacity) / (opacity.trim().endsWith('%') ? 100 : 1);
export const isZero = (opacity: string | undefined): boolean => opacity !== undefined && parseFloat(opacity) <= 0;
export const isWhole = (opacity: string | undefined): boolean => opacity === undefined || !(shareOf(opacity) < 1);
