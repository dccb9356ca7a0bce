/** Creatures that are painted on planes: each id once in the whole scene, and every id that a plane slices is one of them. */
import { shown } from './schema-problem.ts';
import type { Creature, Shape } from './scene.ts';
import type { SceneDocument } from './schema.ts';

type Refuse = (path: string, message: string) => void;
/** Ids named in a refusal before the rest is left out. */
const IDS_SHOWN = 12;

export function creaturesOf({ creatures, placements }: SceneDocument, checkShape: (shape: Shape, path: string, refuse: Refuse) => void, refuse: Refuse): Creature[] {
  const placed = new Set(placements.map(({ id }) => id));
  const known = new Set<string>();
  const read = creatures.map(({ wasFigure: _, ...creature }, i): Creature => {
    const path = `creatures[${i}]`;
    if (placed.has(creature.id) || known.has(creature.id)) refuse(`${path}.id`, `found "${creature.id}" a second time; expected an id that no other creature and no placement has.`);
    known.add(creature.id);
    checkShape(creature.shape as Shape, `${path}.shape`, refuse);
    return { ...creature, shape: creature.shape as Shape, name: creature.name ?? creature.id };
  });
  placements.forEach((placement, i) => {
    if (placement.kind !== 'plane') return;
    placement.slices?.forEach((id, k) => {
      const path = `placements[${i}].slices[${k}]`;
      if (placement.slices!.indexOf(id) !== k) refuse(path, `found ${shown(id)} a second time; expected each creature once on a plane.`);
      if (!known.has(id)) refuse(path, `found ${shown(id)}; expected ${expectedIds(known)}`);
    });
  });
  return read;
}

function expectedIds(known: ReadonlySet<string>): string {
  if (known.size === 0) return 'the id of a creature, and the scene has none. Add it under "creatures", or take it off the plane.';
  const ids = [...known].slice(0, IDS_SHOWN).map((id) => `"${id}"`);
  return `the id of a creature: ${ids.join(', ')}${known.size > IDS_SHOWN ? ' …' : ''}. Correct it, or take it off the plane.`;
}
