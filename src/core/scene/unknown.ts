/** Finds the fields of a valid scene document that its schema does not name. */
import { settled, type Walkable } from './schema-walk.ts';
import { SCENE_SCHEMA } from './schema.ts';

/** Fields of later work: accepted and kept today, so not reported. By the path of the object they sit in. */
const KEPT_FOR_LATER: Readonly<Record<string, readonly string[]>> = {
  '': ['poured', 'locked', 'pressMm'],
  placements: ['locked', 'strokes', 'pressMm'],
  fills: ['locked'],
};

/** Paths of unknown fields, in document order. The document has passed the schema. */
export function unknownFields(document: unknown): string[] {
  const found: string[] = [];
  walk(SCENE_SCHEMA as unknown as Walkable, document, '', '', found);
  return found;
}

function walk(schema: Walkable, value: unknown, path: string, place: string, found: string[]): void {
  if (value === undefined || value === null) return;
  const here = settled(schema, value);
  if (here.item && Array.isArray(value)) value.forEach((item, i) => walk(here.item!, item, `${path}[${i}]`, place, found));
  if (!here.entries) return;
  const later = KEPT_FOR_LATER[place] ?? [];
  for (const [key, inner] of Object.entries(value as Record<string, unknown>)) {
    const at = path ? `${path}.${key}` : key;
    const entry = Object.hasOwn(here.entries, key) ? here.entries[key] : undefined;
    if (entry) walk(entry, inner, at, place ? `${place}.${key}` : key, found);
    else if (!later.includes(key)) found.push(at);
  }
}
