/** The files that a document names, found without its being checked first. */

export interface SceneLink {
  readonly kind: 'mesh' | 'picture';
  readonly path: string;
}

/** In the order of the placements, then of the creatures. Anything that is not a link as the format has it is passed over. */
export function linksOf(document: unknown): SceneLink[] {
  const things = ['placements', 'creatures'].flatMap((list): unknown[] => {
    const found = fieldOf(document, list);
    return Array.isArray(found) ? found : [];
  });
  return things.flatMap((thing): SceneLink[] => {
    const shape = fieldOf(thing, 'shape');
    const mesh = fieldOf(shape, 'type') === 'mesh' ? fieldOf(shape, 'file') : undefined;
    const picture = fieldOf(fieldOf(thing, 'art'), 'file');
    return [
      ...(typeof mesh === 'string' ? [{ kind: 'mesh' as const, path: mesh }] : []),
      ...(typeof picture === 'string' ? [{ kind: 'picture' as const, path: picture }] : []),
    ];
  });
}

function fieldOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[name] : undefined;
}
