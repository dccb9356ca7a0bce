/**
 * Which parts of a drawing are painted: presentation attributes, `style` attributes and plain rules of its style sheets
 * (an element, a class, an id, or these together). Source: SVG 1.1 §6, CSS 2.1 §6.4 for what wins.
 */

export interface StyleRule {
  readonly tag: string | null;
  readonly id: string | null;
  readonly classes: readonly string[];
  /** Ids count 100, classes 10, elements 1. */
  readonly weight: number;
  readonly declared: ReadonlyMap<string, string>;
}

export interface Styled {
  readonly name: string;
  readonly id?: string;
  readonly classes?: string;
  readonly style?: string;
  /** A presentation attribute. */
  readonly attribute: (property: string) => string | undefined;
}

/** What the children of an element get from it. */
export interface Paint {
  readonly fill: string;
  readonly stroke: string;
  readonly strokeWidth: string;
  readonly fillRule: string;
  readonly visibility: string;
  readonly color: string;
  readonly fillOpacity: string;
  readonly strokeOpacity: string;
}

export const FIRST_PAINT: Paint = { fill: 'black', stroke: 'none', strokeWidth: '1', fillRule: 'nonzero', visibility: 'visible', color: 'black', fillOpacity: '1', strokeOpacity: '1' };

const PROPERTIES: readonly (readonly [keyof Paint, string])[] = [
  ['fill', 'fill'], ['stroke', 'stroke'], ['strokeWidth', 'stroke-width'], ['fillRule', 'fill-rule'], ['visibility', 'visibility'], ['color', 'color'],
  ['fillOpacity', 'fill-opacity'], ['strokeOpacity', 'stroke-opacity'],
];
const MOST_RULES = 5_000;

/** Rules that can be told from a style sheet, the weakest first; others (`:hover`, `g > path`, `@media`) are passed over. */
export function rulesOf(css: string): StyleRule[] {
  const rules: StyleRule[] = [];
  const plain = css.replace(/\/\*[\s\S]*?\*\//g, ' ').replace(/@[^{};]*(?:;|\{(?:[^{}]*\{[^{}]*\})*[^{}]*\})/g, ' ');
  for (const [, selectors, body] of plain.matchAll(/([^{}@;]+)\{([^{}]*)\}/g)) {
    const declared = declarations(body);
    for (const selector of selectors.split(',')) {
      const found = /^\s*(\*|[a-z][\w-]*)?((?:[.#][\w-]+)*)\s*$/i.exec(selector);
      if (!found || (!found[1] && !found[2]) || rules.length >= MOST_RULES) continue;
      const tag = found[1] && found[1] !== '*' ? found[1] : null;
      const ids = [...found[2].matchAll(/#([\w-]+)/g)].map(([, name]) => name);
      const classes = [...found[2].matchAll(/\.([\w-]+)/g)].map(([, name]) => name);
      rules.push({ tag, id: ids[0] ?? null, classes, weight: 100 * ids.length + 10 * classes.length + (tag ? 1 : 0), declared });
    }
  }
  return rules.sort((a, b) => a.weight - b.weight);
}

function declarations(text: string): Map<string, string> {
  return new Map([...text.matchAll(/([\w-]+)\s*:\s*([^;]+)/g)].map(([, name, value]) => [name.toLowerCase(), value.replace(/!\s*important/i, '').trim()]));
}

/** A property's own value of an element, or undefined where it says nothing. */
export function declared(element: Styled, rules: readonly StyleRule[]): (property: string) => string | undefined {
  const inline = element.style === undefined ? null : declarations(element.style);
  const classes = element.classes?.split(/\s+/) ?? [];
  const fitting = rules.filter(({ tag, id, classes: wanted }) => (!tag || tag === element.name) && (!id || id === element.id) && wanted.every((name) => classes.includes(name)));
  return (property) => {
    const own = inline?.get(property);
    if (own !== undefined) return own;
    for (let i = fitting.length - 1; i >= 0; i--) {
      const value = fitting[i].declared.get(property);
      if (value !== undefined) return value;
    }
    return element.attribute(property)?.trim();
  };
}

/** What an element is painted with under its parent. */
export function paintOf(own: (property: string) => string | undefined, parent: Paint): Paint {
  return Object.fromEntries(PROPERTIES.map(([key, property]) => {
    const value = own(property);
    return [key, value === undefined || value === 'inherit' ? parent[key] : value];
  })) as unknown as Paint;
}

/** Whether a fill or a stroke leaves anything to see. */
export function isPainted(value: string, opacity: string, color: string): boolean {
  const paint = (value.toLowerCase() === 'currentcolor' ? color : value).trim().toLowerCase();
  if (paint === 'none' || paint === 'transparent' || paint === '') return false;
  if (/^#(?:[\da-f]{6}00|[\da-f]{3}0)$/.test(paint) || /^(?:rgba?|hsla?)\([^)]*[,/]\s*0*\.?0*%?\s*\)$/.test(paint) && /a\(|\//.test(paint)) return false;
  return !isZero(opacity);
}

export const isZero = (opacity: string | undefined): boolean => opacity !== undefined && parseFloat(opacity) === 0;
