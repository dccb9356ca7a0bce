/** Finds the fields of a valid scene document that its schema does not name. */
import { SCENE_SCHEMA } from './schema.ts';

/** Fields of later work: accepted and kept today, so not reported. By the path of the object they sit in. */
const KEPT_FOR_LATER: Readonly<Record<string, readonly string[]>> = {
  '': ['copies', 'plan', 'poured', 'testCups', 'stock', 'labor', 'locked', 'strokes', 'pressMm'],
  placements: ['locked', 'strokes', 'pressMm'],
  fills: ['locked'],
  'fills.tint': ['swatch', 'target'],
  room: ['humidity', 'box'],
  bench: ['exceptions'],
};

/** Enough of a valibot schema to walk it. */
interface Walkable {
  readonly type: string;
  readonly entries?: Readonly<Record<string, Walkable>>;
  readonly wrapped?: Walkable;
  readonly item?: Walkable;
  readonly key?: string;
  readonly options?: readonly Walkable[];
  readonly pipe?: readonly Walkable[];
  readonly literal?: unknown;
}

/** Paths of unknown fields, in document order. The document has passed the schema. */
export function unknownFields(document: unknown): string[] {
  const found: string[] = [];
  walk(SCENE_SCHEMA as unknown as Walkable, document, '', '', found);
  return found;
}

function walk(schema: Walkable, value: unknown, path: string, place: string, found: string[]): void {
  if (value === undefined || value === null) return;
  if (schema.pipe) {
    for (const step of schema.pipe) if (step !== schema && step.type !== 'custom') walk({ ...step, pipe: undefined }, value, path, place, found);
  } else if (schema.wrapped) walk(schema.wrapped, value, path, place, found);
  else if (schema.item && Array.isArray(value)) value.forEach((item, i) => walk(schema.item!, item, `${path}[${i}]`, place, found));
  else if (schema.type === 'variant' && schema.options && schema.key) {
    const tag = (value as Record<string, unknown>)[schema.key];
    const option = schema.options.find((candidate) => candidate.entries?.[schema.key!]?.literal === tag);
    if (option) walk(option, value, path, place, found);
  } else if (schema.entries) {
    const later = KEPT_FOR_LATER[place] ?? [];
    for (const [key, inner] of Object.entries(value as Record<string, unknown>)) {
      const here = path ? `${path}.${key}` : key;
      const entry = Object.hasOwn(schema.entries, key) ? schema.entries[key] : undefined;
      if (entry) walk(entry, inner, here, place ? `${place}.${key}` : key, found);
      else if (!later.includes(key)) found.push(here);
    }
  }
}
