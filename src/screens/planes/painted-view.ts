/** What the mold view shows of painted creatures: their guides as pictures on the planes, their forms in thin lines. */
import { useEffect, useMemo, useState } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import type { Creature } from '../../core/scene/scene.ts';
import type { Place, ViewColors, ViewCreature, ViewGuide } from '../../view/props.ts';
import { usePiece } from '../shared/piece.ts';

const NONE: ReadonlyMap<string, readonly ViewGuide[]> = new Map();

/** By the plane's id. Addresses live as long as they are shown; a guide that did not change keeps its own. */
export function useGuideArt({ ink, ink2 }: Pick<ViewColors, 'ink' | 'ink2'>): ReadonlyMap<string, readonly ViewGuide[]> {
  const painted = usePiece((state) => state.painted);
  const [art, setArt] = useState(NONE);
  const [urls] = useState(() => new Map<string, string>());
  useEffect(() => {
    if (!painted) return undefined;
    let gone = false;
    void import('./guide-svg.ts').then(({ guidePicture }) => {
      if (gone) return;
      const creatures = new Map(painted.scene.creatures.map((creature) => [creature.id, creature]));
      const made = new Map<string, ViewGuide[]>();
      const inUse = new Set<string>();
      for (const guide of painted.guides) {
        const creature = creatures.get(guide.creatureId);
        const picture = creature && guidePicture(guide, { ink, fill: ink2, own: creature.colors?.[0] });
        if (!picture) continue;
        const { svg, ...place } = picture;
        const url = urls.get(svg) ?? URL.createObjectURL(new Blob([svg], { type: 'image/svg+xml' }));
        urls.set(svg, url);
        inUse.add(svg);
        made.set(guide.planeId, [...(made.get(guide.planeId) ?? []), { url, ...place, creature: creature.id, drawnAt: placeOf(creature) }]);
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

/** The forms of the document's creatures, as they were last cut. */
export function usePaintedForms({ creatures }: SceneFile): readonly ViewCreature[] {
  const painted = usePiece((state) => state.painted);
  const forms = useMemo(() => painted?.scene.creatures.flatMap((creature): ViewCreature[] => {
    const drawn = painted.creatures.find(({ id }) => id === creature.id);
    return drawn ? [{ id: creature.id, contours: drawn.contours, drawnAt: placeOf(creature) }] : [];
  }) ?? [], [painted]);
  return useMemo(() => forms.filter(({ id }) => creatures?.some((now) => now.id === id)), [forms, creatures]);
}

function placeOf({ xMm, yMm, baseMm, turnDeg }: Creature): Place {
  return { xMm, yMm, baseMm, turnZDeg: turnDeg[2] };
}
