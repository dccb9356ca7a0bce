/** The gauge at the left of every screen but a printed sheet, with what is chosen and what the finding shown concerns. */
import { useMemo } from 'react';
import { laterThan } from '../../store/pour-steps.ts';
import { leftwardFigures, tintedPours } from '../../store/drawn.ts';
import { haltedPours, markedPours } from '../../store/findings.ts';
import { Gauge } from '../gauge/Gauge.tsx';
import { choosePourAndShow } from './choose-pour.ts';
import { useDerived, usePiece } from './piece.ts';
import { NARROW_PX, useViewport, WIDE_PX } from './viewport.ts';

const COLUMN_PX = { wide: 420, middle: 340, narrow: 108 } as const;
/** px of the window that the gauge does not take: the top bar and the space around it. */
const AROUND_PX = { wide: 98, middle: 124, narrow: 212 } as const;
const LEAST_PX = { wide: 480, narrow: 320 } as const;
const MOST_PX = { wide: 980, narrow: 620 } as const;

export function GaugeColumn() {
  const { section, plan, scene } = useDerived();
  const finding = usePiece((state) => plan.findings[state.findingAt]);
  const chosen = usePiece((state) => state.chosenPour);
  const choosePour = usePiece((state) => state.choosePour);
  const later = useMemo(() => (chosen === null ? undefined : laterThan(plan, chosen)), [plan, chosen]);
  const { widthPx, heightPx } = useViewport();
  const tinted = useMemo(() => tintedPours(scene, plan), [scene, plan]);
  const leftward = useMemo(() => leftwardFigures(scene), [scene]);
  const halted = useMemo(() => haltedPours(plan), [plan]);
  const marked = useMemo(() => markedPours(plan, finding), [plan, finding]);
  const size = widthPx >= WIDE_PX ? 'wide' : widthPx >= NARROW_PX ? 'middle' : 'narrow';
  const kind = size === 'narrow' ? 'narrow' : 'wide';
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
      widthPx={COLUMN_PX[size]}
      heightPx={Math.min(MOST_PX[kind], Math.max(LEAST_PX[kind], heightPx - AROUND_PX[size]))}
    />
  );
}
