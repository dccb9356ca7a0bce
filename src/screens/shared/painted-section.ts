/** Painted creatures on the gauge: dashed outlines where they would stand, moved along with the document before they are cut anew. */
import { useMemo } from 'react';
import type { CreatureFile, SceneFile } from '../../core/scene/edit/file.ts';
import { shiftedPolygon } from '../../core/sheet/polygon.ts';
import type { Section, SectionShape } from '../../core/sheet/section.ts';
import type { Painted } from '../../store/piece-painting.ts';
import { usePiece } from './piece.ts';

/** The section with the creatures of the document. */
export function useWithCreatures(section: Section, document: SceneFile): Section {
  const painted = usePiece((state) => state.painted);
  const creatures = document.creatures;
  return useMemo(() => withCreatures(section, painted, creatures ?? []), [section, painted, creatures]);
}

function withCreatures(section: Section, painted: Painted | null, creatures: readonly CreatureFile[]): Section {
  const shapes = creatures.flatMap((now): SectionShape[] => {
    const drawn = painted?.creatures.find(({ id }) => id === now.id);
    const by = painted && movedBy(painted, now);
    if (!drawn || !by || drawn.outline.length === 0) return [];
    const baseMm = now.baseMm ?? 0;
    return [{ id: now.id, name: now.name ?? now.id, kind: 'creature', baseMm, topMm: drawn.topMm + by.zMm, outline: drawn.outline.map((polygon) => shiftedPolygon(polygon, by.xMm, by.zMm)) }];
  });
  return shapes.length === 0 ? section : { ...section, shapes: [...section.shapes, ...shapes] };
}

/** How far the document has moved a creature since it was cut; null where it was not there. */
function movedBy({ scene }: Painted, { id, xMm = 0, yMm = 0, baseMm = 0 }: CreatureFile): { readonly xMm: number; readonly yMm: number; readonly zMm: number } | null {
  const then = scene.creatures.find((creature) => creature.id === id);
  return then ? { xMm: xMm - then.xMm, yMm: yMm - then.yMm, zMm: baseMm - then.baseMm } : null;
}
