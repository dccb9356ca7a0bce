/** What the mold view shows of painted creatures: their guides as pictures on the planes, their forms in thin lines. */
import { useEffect, useMemo, useState } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import type { Painted } from '../../store/piece-painting.ts';
import type { ViewArt, ViewColors, ViewLines } from '../../view/props.ts';
import { movedBy } from '../shared/painted-section.ts';
import { usePiece } from '../shared/piece.ts';

const NONE: ReadonlyMap<string, ViewArt> = new Map();

/** By the plane's id. Addresses live as long as they are shown; a guide that did not change keeps its own. */
export function useGuideArt({ ink, ink2 }: Pick<ViewColors, 'ink' | 'ink2'>): ReadonlyMap<string, ViewArt> {
  const painted = usePiece((state) => state.painted);
  const [art, setArt] = useState(NONE);
  const [urls] = useState(() => new Map<string, string>());
  useEffect(() => {
    if (!painted) return undefined;
    let gone = false;
    void import('./guide-svg.ts').then(({ guidePicture }) => {
      if (gone) return;
      const colors = new Map(painted.scene.creatures.flatMap(({ id, colors: own }) => (own?.[0] ? [[id, own[0]] as const] : [])));
      const made = new Map<string, ViewArt>();
      const inUse = new Set<string>();
      for (const id of new Set(painted.guides.map(({ planeId }) => planeId))) {
        const picture = guidePicture(painted.guides.filter(({ planeId }) => planeId === id), { ink, fill: ink2, colors });
        if (!picture) continue;
        const { svg, ...place } = picture;
        const url = urls.get(svg) ?? URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
        urls.set(svg, url);
        inUse.add(svg);
        // Guides lie in the mold as they are; pictures of a face-down casting are turned over by the view.
        made.set(id, { url, ...place, turnDeg: 0, mirror: painted.scene.cast === 'face-down', fixed: true });
      }
      forget(urls, inUse);
      setArt(made);
    });
    return () => {
      gone = true;
    };
  }, [painted, ink, ink2, urls]);
  useEffect(() => () => forget(urls, new Set()), [urls]);
  return painted ? art : NONE;
}

function forget(urls: Map<string, string>, inUse: ReadonlySet<string>): void {
  for (const [svg, url] of urls) {
    if (inUse.has(svg)) continue;
    URL.revokeObjectURL(url);
    urls.delete(svg);
  }
}

/** The creatures of the document, where it has them now. */
export function usePaintedLines(file: SceneFile): readonly ViewLines[] {
  const painted = usePiece((state) => state.painted);
  const pieces = useMemo(() => new Map(painted?.creatures.map(({ id, contours }) => [id, piecesOf(contours)])), [painted]);
  const { creatures } = file;
  return useMemo(() => (creatures ?? []).flatMap((now): ViewLines[] => {
    const own = pieces.get(now.id);
    const by = painted && movedBy(painted, now);
    return own && by ? [{ id: now.id, pieces: own, byMm: [by.xMm, by.yMm, by.zMm] }] : [];
  }), [creatures, painted, pieces]);
}

function piecesOf(contours: Painted['creatures'][number]['contours']): Float32Array {
  return Float32Array.from(contours.flatMap(({ atMm, loops }) => loops.flatMap((loop) => {
    const n = loop.length;
    return Array.from({ length: n / 2 }, (_, i) => [loop[2 * i], loop[2 * i + 1], atMm, loop[(2 * i + 2) % n], loop[(2 * i + 3) % n], atMm]).flat();
  })));
}
