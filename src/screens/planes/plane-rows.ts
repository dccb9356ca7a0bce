/** The rows of "How many planes?", planned by the worker one after the other; given up when the piece moves on. */
import { useEffect, useState } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import type { Scene } from '../../core/scene/scene.ts';
import { countChoices, countRow, withoutPlanes, type CountChoice, type CountRow } from '../../core/sight/plane-counts.ts';
import type { Plan } from '../../core/plan/plan.ts';
import type { PieceState } from '../../store/piece-state.ts';
import { REST_MS, useAtRest, useDerived, usePiece } from '../shared/piece.ts';
import type { Stance } from './slicing.ts';

export interface PlaneRow extends CountRow {
  readonly choice: CountChoice;
}

export interface PlaneRows {
  readonly rows: readonly PlaneRow[];
  readonly done: boolean;
}

interface Known extends PlaneRows {
  readonly key: string;
}

/** Null: none known yet. Choosing a row leaves them as they are: they do not hang on how many planes there are now. */
export function usePlaneRows(file: SceneFile, creatureId: string, stance: Stance): PlaneRows | null {
  const derived = useDerived();
  const planWith = usePiece((state) => state.planWith);
  const atRest = useAtRest(derived);
  const [known, setKnown] = useState<Known | null>(null);
  const key = keyOf(file, creatureId);
  const complete = known?.key === key && known.done;
  const ready = atRest && derived.document === file;
  const { scene } = derived;
  const { tallMm } = stance;
  useEffect(() => {
    if (!ready || complete) return undefined;
    let left = false;
    const tell = (rows: readonly PlaneRow[], done: boolean): void => setKnown({ key, rows, done });
    const resting = setTimeout(() => void planRows({ file, scene, creatureId, tallMm, planWith, tell, left: () => left }), REST_MS);
    return () => {
      left = true;
      clearTimeout(resting);
    };
  }, [ready, complete, key, file, scene, creatureId, tallMm, planWith]);
  return known?.key === key ? known : null;
}

interface Asking {
  readonly file: SceneFile;
  readonly scene: Scene;
  readonly creatureId: string;
  readonly tallMm: number;
  readonly planWith: PieceState['planWith'];
  readonly tell: (rows: readonly PlaneRow[], done: boolean) => void;
  readonly left: () => boolean;
}

async function planRows({ file, scene, creatureId, tallMm, planWith, tell, left }: Asking): Promise<void> {
  const creature = scene.creatures.find(({ id }) => id === creatureId);
  if (!creature) return;
  const plan = async (document: SceneFile): Promise<Plan | 'none' | null> => {
    if (left()) return null;
    const answer = await planWith(document);
    return left() || answer === null ? null : answer.ok ? answer.value.plan : 'none';
  };
  const without = await plan(withoutPlanes(file, creatureId));
  if (without === null) return;
  const rows: PlaneRow[] = [];
  if (without !== 'none') {
    for (const choice of countChoices(scene, { file, creature, tallMm })) {
      const planned = await plan(choice.file);
      if (planned === null) return;
      if (planned === 'none') continue;
      rows.push({ ...countRow(choice, creature, { plan: planned, without }), choice });
      tell([...rows], false);
    }
  }
  tell(rows, true);
}

/** What the rows follow from: the piece without the creature's planes, and the hours its planes were given. */
function keyOf(file: SceneFile, creatureId: string): string {
  const hours = (file.placements ?? []).flatMap((each) => (each.kind === 'plane' && each.slices?.includes(creatureId) && (each.paintH ?? each.dryH) !== undefined ? [[each.paintH, each.dryH]] : []));
  return JSON.stringify([withoutPlanes(file, creatureId), hours]);
}
