/** What concerns the whole piece: its name, which way it is cast. */
import { done, refused, type EditResult, type SceneFile } from './file.ts';
import { nameFlaw } from './names.ts';
import { patched } from './replace.ts';

export function namePiece(file: SceneFile, name: string): EditResult {
  const flaw = nameFlaw(name);
  if (flaw) return refused(flaw);
  return done(patched(file, { name: name.trim() }), `piece named ${name.trim()}`);
}

/** Face-up: the last pour is looked at. Face-down: the mold floor is. */
export function setCast(file: SceneFile, cast: 'face-up' | 'face-down'): EditResult {
  return done(patched(file, { cast }), `cast ${cast}`, 'cast');
}
