/** The one quiet line under the picture: what to do next, in the artist's words. */
import { creature } from '../../core/scene/edit/creature.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { isLocked, nameOf, spoken, thing, thingsOf } from '../../core/scene/edit/things.ts';
import { standingOn } from '../card/place-words.ts';

/** For what is selected; for an empty mold the first thing to do. `untouched`: nothing has been changed yet. */
export function hintFor(file: SceneFile, selected: readonly string[], untouched: boolean): string {
  const things = selected.flatMap((id) => thing(file, id) ?? []);
  const painted = selected.flatMap((id) => creature(file, id) ?? []);
  if (things.length + painted.length > 1) return 'Drag one and all of them move.';
  const [one] = things;
  if (one) {
    const name = spoken(nameOf(one));
    if (isLocked(one)) return `The ${name} is locked. Unlock it on the card to move it.`;
    if (one.kind === 'plane') return one.art ? 'Slide its picture, pull the float to raise it, turn the ring.' : 'Pull the clip at the left to set how deep it lies.';
    return `Slide the ${name} over ${standingOn(file, one)}, pull the float to raise it, turn the ring.`;
  }
  if (painted.length > 0) return `Slide the ${spoken(nameOf(painted[0]))}, pull the float to raise it with its planes, turn the ring.`;
  if (thingsOf(file).length === 0) return 'An empty mold. Set something in it: a figure, a painted plane or a bed.';
  return `Press a thing to move it. Drag beside the mold to look from elsewhere.${untouched ? ' A piece of your own begins under Files.' : ''}`;
}
