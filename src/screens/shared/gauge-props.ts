/** What every gauge says of a piece besides its section: tints, halts, the pour chosen, and the pours of the finding shown. */
import { useMemo } from 'react';
import { leftwardFigures, tintedPours } from '../../store/drawn.ts';
import { haltedPours, markedPours } from '../../store/findings.ts';
import type { Derived } from '../../store/piece-state.ts';
import type { GaugeProps } from '../gauge/Gauge.tsx';
import { usePiece } from './piece.ts';

export type CommonGaugeProps = Pick<GaugeProps, 'tinted' | 'leftward' | 'halted' | 'safe' | 'marked' | 'mark' | 'chosen' | 'unit'>;

export function useGaugeProps({ plan, scene }: Pick<Derived, 'plan' | 'scene'>): CommonGaugeProps {
  const finding = usePiece((state) => plan.findings[state.findingAt]);
  const chosen = usePiece((state) => state.chosenPour);
  const unit = usePiece((state) => state.units.length);
  const tinted = useMemo(() => tintedPours(scene, plan), [scene, plan]);
  const leftward = useMemo(() => leftwardFigures(scene), [scene]);
  const halted = useMemo(() => haltedPours(plan), [plan]);
  const safe = useMemo(() => new Map(plan.pours.flatMap(({ index, heat }) => (heat ? [[index, heat.safeDepthMm] as const] : []))), [plan]);
  const marked = useMemo(() => markedPours(plan, finding), [plan, finding]);
  return { tinted, leftward, halted, safe, marked, mark: finding?.severity ?? null, chosen, unit };
}
