/** Asks for the plan of this piece together with others once it rests; a change of anything breaks off what was asked before. */
import { useEffect, useRef, useState } from 'react';
import { TogetherClient } from '../../../work/together-client.ts';
import type { PlannedTogether } from '../../../work/together-protocol.ts';
import type { Derived, RecentPiece } from '../../../store/piece-state.ts';
import type { Paper } from '../../../core/sheet/document.ts';
import type { ChosenUnits } from '../../../core/units/in-units.ts';
import { REST_MS, useAtRest, useDerived, usePiece, usePieceStore } from '../../shared/piece.ts';
import { problemLines } from './together-words.ts';

export type TogetherLook =
  | { readonly kind: 'doing'; readonly words: string }
  | { readonly kind: 'told'; readonly planned: PlannedTogether; /** Each piece's name in calendars. */ readonly keys: readonly string[] }
  | { readonly kind: 'refused'; readonly lines: readonly string[] };

export interface TogetherPlanning {
  readonly look: TogetherLook;
  /** The sheets of what is told, or null with `look` saying why. */
  pdf(paper: Paper, units: ChosenUnits): Promise<Uint8Array | null>;
}

interface Known {
  readonly of: Derived;
  readonly key: string;
  readonly look: TogetherLook;
}

export function useTogether(others: readonly RecentPiece[]): TogetherPlanning {
  const store = usePieceStore();
  const derived = useDerived();
  const atRest = useAtRest(derived);
  const current = usePiece((state) => state.document === derived.document);
  const client = useRef<TogetherClient | null>(null);
  const ids = useRef(new WeakMap<Blob, string>());
  const counted = useRef(0);
  const [known, setKnown] = useState<Known | null>(null);
  const key = JSON.stringify(others.map(({ id, changedAt }) => [id, changedAt]));
  const ready = atRest && current;

  useEffect(() => () => {
    client.current?.dispose();
    client.current = null;
  }, []);

  useEffect(() => {
    if (!ready) return undefined;
    let left = false;
    const show = (look: TogetherLook): void => {
      if (!left) setKnown({ of: derived, key, look });
    };
    const idOf = (blob: Blob): string => {
      const id = ids.current.get(blob) ?? `own ${++counted.current}`;
      ids.current.set(blob, id);
      return id;
    };
    const ask = async (): Promise<void> => {
      const { files, keptPiece } = store.getState();
      const wanted = (JSON.parse(key) as [string, number][]).map(([id]) => id);
      const kept = await Promise.all(wanted.map((id) => keptPiece(id)));
      if (left) return;
      if (kept.includes(null)) return show({ kind: 'refused', lines: ['One of them is not kept here any more. Take its tick away, or open its file again.'] });
      const own = { id: null, name: derived.scene.name, document: derived.document as unknown, files: [...files].map(([path, blob]) => ({ id: idOf(blob), path, blob })) };
      const pieces = [own, ...kept.flatMap((one) => one ?? [])];
      client.current ??= new TogetherClient();
      const answer = await client.current.plan(pieces.map(({ document, files: its }) => ({ document, files: its })), (words) => show({ kind: 'doing', words }));
      if (answer.ok) show({ kind: 'told', planned: answer.value, keys: calendarKeys(pieces) });
      else if (!answer.canceled) show({ kind: 'refused', lines: problemLines(answer, pieces) });
    };
    const resting = setTimeout(() => void ask(), REST_MS);
    return () => {
      left = true;
      clearTimeout(resting);
      client.current?.stop();
    };
  }, [ready, derived, key, store]);

  const told = known?.of === derived && known.key === key ? known.look : null;
  return {
    look: told ?? { kind: 'doing', words: ready ? 'Being planned …' : 'Waiting for this piece’s own plan …' },
    async pdf(paper, units) {
      if (!client.current || told?.kind !== 'told') return null;
      const answer = await client.current.pdf(paper, units, () => {});
      if (answer.ok) return answer.value;
      store.getState().tellTrouble('The sheets can’t be written', answer.canceled ? 'Something changed meanwhile. Press again when the new plan is there.' : answer.problems.map(({ message }) => message).join(' '));
      return null;
    },
  };
}

/** What each piece is known by in a calendar, the same as by itself; a copy of a piece that has the same id gets one of its own. */
export function calendarKeys(pieces: readonly { readonly id: string | null; readonly name: string; readonly document: unknown }[]): string[] {
  const own = pieces.map(({ name, document }) => {
    const id = typeof document === 'object' && document !== null ? (document as { id?: unknown }).id : undefined;
    return typeof id === 'string' ? id : name;
  });
  return own.map((one, i) => (own.indexOf(one) === i ? one : `${one} ${pieces[i].id ?? i + 1}`));
}
