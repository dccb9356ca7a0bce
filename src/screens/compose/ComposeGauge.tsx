/** The gauge at work: the section as the document has it this moment, and the hands that set heights on it. */
import { useMemo } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { leftwardFigures, tintedPours } from '../../store/drawn.ts';
import { haltedPours, markedPours } from '../../store/findings.ts';
import type { Derived } from '../../store/piece-state.ts';
import { Gauge } from '../gauge/Gauge.tsx';
import { usePiece } from '../shared/piece.ts';
import { NARROW_PX, useViewport, WIDE_PX } from '../shared/viewport.ts';
import { GaugeHands } from './GaugeHands.tsx';
import { sectionNow } from './scene-now.ts';

const COLUMN_PX = { wide: 420, middle: 340, narrow: 108 } as const;
/** px of the window that the gauge does not take: the bars around it, and at phone width the slip of the card. */
const AROUND_PX = { wide: 98, narrow: 130 } as const;
const SLIP_SHARE = 0.4;
const LEAST_PX = { wide: 480, narrow: 260 } as const;
const MOST_PX = { wide: 980, narrow: 620 } as const;

export function ComposeGauge({ file, derived }: { readonly file: SceneFile; readonly derived: Derived }) {
  const { plan, scene } = derived;
  const finding = usePiece((state) => plan.findings[state.findingAt]);
  const chosen = usePiece((state) => state.chosenPour);
  const choosePour = usePiece((state) => state.choosePour);
  const { widthPx, heightPx } = useViewport();
  const section = useMemo(() => sectionNow(derived, file), [derived, file]);
  const tinted = useMemo(() => tintedPours(scene, plan), [scene, plan]);
  const leftward = useMemo(() => leftwardFigures(scene), [scene]);
  const halted = useMemo(() => haltedPours(plan), [plan]);
  const marked = useMemo(() => markedPours(plan, finding), [plan, finding]);
  const size = widthPx >= WIDE_PX ? 'wide' : widthPx >= NARROW_PX ? 'middle' : 'narrow';
  const kind = size === 'narrow' ? 'narrow' : 'wide';
  const free = heightPx - AROUND_PX[kind] - (kind === 'narrow' ? heightPx * SLIP_SHARE : 0);
  return (
    <Gauge
      section={section}
      tinted={tinted}
      leftward={leftward}
      halted={halted}
      marked={marked}
      mark={finding?.severity ?? null}
      chosen={chosen}
      onChoose={(pour) => choosePour(chosen === pour ? null : pour)}
      widthPx={COLUMN_PX[size]}
      heightPx={Math.min(MOST_PX[kind], Math.max(LEAST_PX[kind], free))}
      hands={(model) => <GaugeHands file={file} model={model} narrow={kind === 'narrow'} widthPx={COLUMN_PX[size]} />}
    />
  );
}
