/** The piece's sketches as pictures for the mold view. What paints them comes with the first sketch. */
import { useEffect, useState } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { sketchedPlanes, sketchOf } from '../../core/scene/edit/sketch.ts';
import type { ViewPlane, ViewSketch } from '../../view/props.ts';

const REST_MS = 400;
const NONE: ReadonlyMap<string, ViewSketch> = new Map();

/** By the plane's id; painted anew for a plane whose strokes changed. Addresses live as long as they are shown. */
export function useSketchPictures(file: SceneFile): ReadonlyMap<string, ViewSketch> {
  const [pictures, setPictures] = useState(NONE);
  /** By the plane's id: what its picture was painted from. */
  const [kept] = useState(() => new Map<string, { readonly strokes: string; readonly picture: ViewSketch }>());
  const { strokes } = file;
  useEffect(() => {
    if (strokes === undefined) return undefined;
    let gone = false;
    const make = (): void => void import('./sketch-picture.ts').then(async ({ sketchPicture }) => {
      const planes = sketchedPlanes(file);
      for (const id of planes) {
        const sketch = sketchOf(file, id);
        const key = JSON.stringify(sketch.map(({ at: _, ...stroke }) => stroke));
        if (kept.get(id)?.strokes === key) continue;
        const picture = await sketchPicture(sketch);
        if (gone) return;
        forget(kept, id);
        if (picture) kept.set(id, { strokes: key, picture: { ...picture, url: URL.createObjectURL(picture.blob) } });
      }
      for (const id of [...kept.keys()]) if (!planes.has(id)) forget(kept, id);
      if (!gone) setPictures(new Map([...kept].map(([id, { picture }]) => [id, picture])));
    });
    // Strokes that follow each other are painted together; the first look is at once.
    const resting = setTimeout(make, kept.size === 0 ? 0 : REST_MS);
    return () => {
      gone = true;
      clearTimeout(resting);
    };
    // Other fields of the file say nothing of its sketches.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [strokes, kept]);
  useEffect(() => () => {
    for (const id of [...kept.keys()]) forget(kept, id);
  }, [kept]);
  return strokes === undefined ? NONE : pictures;
}

function forget(kept: Map<string, { readonly picture: ViewSketch }>, id: string): void {
  const old = kept.get(id);
  if (old) URL.revokeObjectURL(old.picture.url);
  kept.delete(id);
}

export function withSketches(planes: readonly ViewPlane[], sketches: ReadonlyMap<string, ViewSketch>): readonly ViewPlane[] {
  if (sketches.size === 0) return planes;
  return planes.map((plane) => (sketches.has(plane.id) ? { ...plane, sketch: sketches.get(plane.id) } : plane));
}
