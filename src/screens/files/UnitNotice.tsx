/** A figure or bed from a file whose size says that it was read in the wrong unit: noticed, and mended with one press. */
import { useMemo, useState } from 'react';
import { likelyUnit, setMeshUnit, unitOf } from '../../core/scene/edit/mesh-unit.ts';
import type { MeshUnit } from '../../core/scene/scene.ts';
import type { Derived } from '../../store/piece-state.ts';
import { useDerived, usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';

const UNIT_WORDS: Readonly<Record<MeshUnit, string>> = { mm: 'millimeters', cm: 'centimeters', m: 'meters', in: 'inches' };

interface Suspect {
  readonly id: string;
  readonly name: string;
  readonly file: string;
  readonly sizeMm: number;
  readonly unit: MeshUnit;
  readonly likely: MeshUnit;
}

export function UnitNotice() {
  const derived = useDerived();
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const { length } = useWords();
  const [meant, setMeant] = useState<ReadonlySet<string>>(new Set());
  const suspect = useMemo(() => suspectsOf(derived).find(({ id, file }) => !meant.has(`${id} ${file}`)), [derived, meant]);
  if (!suspect || readOnly) return null;
  const { id, name, file, sizeMm, unit, likely } = suspect;
  return (
    <section className="trouble" aria-label="Unit of a file">
      <p><i>{name}</i> would be {length(sizeMm)} long. Its file seems to be in {UNIT_WORDS[likely]}, not in {UNIT_WORDS[unit]}.</p>
      <p className="buttons">
        <button type="button" className="button main" onClick={() => edit((document) => setMeshUnit(document, id, likely))}>Read it in {UNIT_WORDS[likely]}</button>
        <button type="button" className="button" onClick={() => setMeant(new Set([...meant, `${id} ${file}`]))}>It is that size</button>
      </p>
    </section>
  );
}

function suspectsOf({ scene, solids, document }: Derived): Suspect[] {
  return scene.placements.flatMap((placement): Suspect[] => {
    if (placement.kind === 'plane' || placement.shape.type !== 'mesh') return [];
    const bounds = solids.find(({ id }) => id === placement.id)?.bounds;
    const unit = unitOf(placement.shape);
    const likely = bounds && unit && likelyUnit(document.mold, bounds, unit);
    if (!bounds || !unit || !likely) return [];
    const sizeMm = Math.max(...bounds.max.map((high, k) => high - bounds.min[k]));
    return [{ id: placement.id, name: placement.name, file: placement.shape.file, sizeMm, unit, likely }];
  });
}
