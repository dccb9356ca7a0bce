/** What sketches a scene file holds, and that they go, stay and are copied with their planes. Drawing is in strokes.ts. */
import type { Stroke } from '../scene.ts';
import type { SceneFile, StrokeFile } from './file.ts';
import { isOurs } from './ours.ts';
import { patched, unlessEmpty } from './replace.ts';

/** Of a stroke that says nothing; what the schema fills in. */
const USUAL = { widthMm: 2, softMm: 0.5 };

/** All strokes of the file; none where it holds them in another form. */
export function strokesOf(file: SceneFile): readonly StrokeFile[] {
  return file.strokes !== undefined && isOurs(file, 'strokes') ? file.strokes : [];
}

/** Those of one plane, as drawn, with each one's place in the file. */
export function sketchOf(file: SceneFile, planeId: string): readonly (Stroke & { readonly at: number })[] {
  return strokesOf(file).flatMap((stroke, at) => (stroke.plane === planeId ? [{ ...USUAL, ...stroke, at }] : []));
}

export function isSketchedOn(file: SceneFile, planeId: string): boolean {
  return strokesOf(file).some(({ plane }) => plane === planeId);
}

/** Ids of the planes that something is sketched on. */
export function sketchedPlanes(file: SceneFile): ReadonlySet<string> {
  return new Set(strokesOf(file).map(({ plane }) => plane));
}

/** The file without the sketches on planes that leave with this edit. */
export function withoutSketches(file: SceneFile, planeIds: ReadonlySet<string>): SceneFile {
  const strokes = strokesOf(file);
  const left = strokes.filter(({ plane }) => !planeIds.has(plane));
  return left.length === strokes.length ? file : patched(file, { strokes: unlessEmpty(left) });
}

/** The file with every sketch once more on its plane's copy; `copies` by the id of what was copied. */
export function withCopiedSketches(file: SceneFile, copies: ReadonlyMap<string, string>): SceneFile {
  const strokes = strokesOf(file);
  const more = strokes.flatMap((stroke) => (copies.has(stroke.plane) ? [patched(stroke, { plane: copies.get(stroke.plane)! })] : []));
  return more.length === 0 ? file : patched(file, { strokes: [...strokes, ...more] });
}
