/** The gauge at the left of every screen but a printed sheet, with what is chosen and what the finding shown concerns. */
import { useMemo } from 'react';
import { laterThan } from '../../store/pour-steps.ts';
import { leftwardFigures, tintedPours } from '../../store/drawn.ts';
import { haltedPours, markedPours } from '../../store/findings.ts';
import { Gauge } from '../gauge/Gauge.tsx';
import { choosePourAndShow } from './choose-pour.ts';
import { gaugeSpace } from './gauge-room.ts';
import { useDerived, usePiece } from './piece.ts';
import { useViewport } from './viewport.ts';

export function GaugeColumn() {
  const { section, plan, scene } = useDerived();
  const finding = usePiece((state) => plan.findings[state.findingAt]);
  const chosen = usePiece((state) => state.chosenPour);
  const choosePour = usePiece((state) => state.choosePour);
  const unit = usePiece((state) => state.units.length);
  const later = useMemo(() => (chosen === null ? undefined : laterThan(plan, chosen)), [plan, chosen]);
  const { widthPx, heightPx } = gaugeSpace(useViewport(), false);
  const tinted = useMemo(() => tintedPours(scene, plan), [scene, plan]);
  const leftward = useMemo(() => leftwardFigures(scene), [scene]);
  const halted = useMemo(() => haltedPours(plan), [plan]);
  const marked = useMemo(() => markedPours(plan, finding), [plan, finding]);
  return (
    <Gauge
      section={section}
      tinted={tinted}
      leftward={leftward}
      halted={halted}
      marked={marked}
      mark={finding?.severity ?? null}
      chosen={chosen}
      poured={chosen ?? undefined}
      later={later}
      onChoose={(pour) => choosePourAndShow(pour === chosen ? null : pour, choosePour)}
      unit={unit}
      widthPx={widthPx}
      heightPx={heightPx}
    />
  );
}
