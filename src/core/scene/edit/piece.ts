/** What concerns the whole piece: its name, which way it is cast, how heat is judged. */
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

export function setHeatModel(file: SceneFile, model: 'label' | 'simulated'): EditResult {
  return done(patched(file, { heat: patched(file.heat ?? {}, { model }) }), model === 'label' ? 'depths by the label alone' : 'depths by the label and the heat', 'heat');
}
