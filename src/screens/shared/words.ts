/** Lengths, volumes and sentences in the units the person chose. */
import { useMemo } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { formulasOf } from '../../core/scene/edit/formulas.ts';
import { nameOf, spoken, thingsOf } from '../../core/scene/edit/things.ts';
import { atLeastIn, inUnits, lengthIn, lengthNumber, limitIn, sizesIn, volumeIn } from '../../core/units/in-units.ts';
import type { SwitchUnits } from '../../store/piece-state.ts';
import { usePiece } from './piece.ts';

export interface Words {
  /** `20 mm`, `3⁄4 in`. */
  length(mm: number, digits?: number): string;
  /** Without its unit. */
  lengthNumber(mm: number, digits?: number): string;
  /** What must not be exceeded. */
  limit(mm: number): string;
  /** What must be kept at least. */
  atLeast(mm: number): string;
  sizes(mm: readonly number[], digits?: number): string;
  volume(ml: number): string;
  /** What an edit is called or says when it is refused. */
  said(text: string): string;
  /** A sentence of the plan. */
  planned(text: string): string;
}

export function useWords(): Words {
  const units = usePiece((state) => state.units);
  const document = usePiece((state) => state.document);
  return useMemo(() => wordsIn(units, document), [units, document]);
}

/** Names in `document` stay as they are, whatever stands in them. */
function wordsIn(units: SwitchUnits, document: SceneFile | null): Words {
  const keep = document === null || units.length + units.volume === 'mmmL' ? [] : namesIn(document);
  return {
    length: (mm, digits) => lengthIn(mm, units.length, digits),
    lengthNumber: (mm, digits) => lengthNumber(mm, units.length, digits),
    limit: (mm) => limitIn(mm, units.length),
    atLeast: (mm) => atLeastIn(mm, units.length),
    sizes: (mm, digits) => sizesIn(mm, units.length, digits),
    volume: (ml) => volumeIn(ml, units.volume),
    said: (text) => inUnits(text, units, { keep }),
    planned: (text) => inUnits(text, units, { keep, plan: true }),
  };
}

function namesIn(document: SceneFile): readonly string[] {
  const things = [...thingsOf(document), ...(document.creatures ?? [])].map(nameOf);
  return [...things, ...things.map(spoken), ...formulasOf(document).map(({ id, name }) => name ?? id), ...(document.name ? [document.name] : [])];
}
