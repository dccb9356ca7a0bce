/** The files that a document names, found without its being checked first. */

export interface SceneLink {
  readonly kind: 'mesh' | 'picture';
  readonly path: string;
}

/** In the order of the placements. Anything that is not a link as the format has it is passed over. */
export function linksOf(document: unknown): SceneLink[] {
  const placements = fieldOf(document, 'placements');
  if (!Array.isArray(placements)) return [];
  return placements.flatMap((placement): SceneLink[] => {
    const shape = fieldOf(placement, 'shape');
    const mesh = fieldOf(shape, 'type') === 'mesh' ? fieldOf(shape, 'file') : undefined;
    const picture = fieldOf(fieldOf(placement, 'art'), 'file');
    return [
      ...(typeof mesh === 'string' ? [{ kind: 'mesh' as const, path: mesh }] : []),
      ...(typeof picture === 'string' ? [{ kind: 'picture' as const, path: picture }] : []),
    ];
  });
}

function fieldOf(value: unknown, name: string): unknown {
  return typeof value === 'object' && value !== null ? (value as Record<string, unknown>)[name] : undefined;
}
