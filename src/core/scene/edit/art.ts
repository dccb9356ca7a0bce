/** The picture on a painted plane: put on, moved, turned, mirrored, sized, taken off. The file holds what the viewer will see. */
import { done, refused, type ArtFile, type EditResult, type PlaneFile, type SceneFile } from './file.ts';
import { patched } from './replace.ts';
import { isLocked, nameOf, spoken, thing, withThings } from './things.ts';

/** Puts a picture on a plane, centered unless it says otherwise. */
export function putArt(file: SceneFile, id: string, art: ArtFile): EditResult {
  return withPlane(file, id, (plane) => patched(plane, { art }), 'picture put on');
}

/** Changes the picture that is there. Replacing only `file` keeps its size and place. */
export function changeArt(file: SceneFile, id: string, change: Partial<ArtFile>): EditResult {
  const plane = thing(file, id);
  if (plane?.kind === 'plane' && !plane.art) return refused(`${nameOf(plane)} has no picture yet. Drop one on it first.`);
  const words = change.turnDeg !== undefined ? 'picture turned' : change.mirror !== undefined ? 'picture mirrored' : change.widthMm !== undefined ? 'picture sized' : change.file !== undefined ? 'new picture' : 'picture moved';
  return withPlane(file, id, (old) => patched(old, { art: patched(old.art!, change) }), words);
}

export function takeArtOff(file: SceneFile, id: string): EditResult {
  return withPlane(file, id, (plane) => patched(plane, { art: undefined }), 'picture taken off');
}

function withPlane(file: SceneFile, id: string, change: (plane: PlaneFile) => PlaneFile, words: string): EditResult {
  const plane = thing(file, id);
  if (plane?.kind !== 'plane') return refused('Only a painted plane carries a picture. Choose one.');
  if (isLocked(plane)) return refused(`${nameOf(plane)} is locked. Unlock it first.`);
  return done(
    withThings(file, (placement) => (placement === plane ? change(plane) : placement)),
    `${spoken(nameOf(plane))}: ${words}`,
    `the picture on ${nameOf(plane)}`,
  );
}
