/** The gauge at work: the section as the document has it this moment, and the hands that set heights on it. */
import { useMemo } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { leftwardFigures, tintedPours } from '../../store/drawn.ts';
import { haltedPours, markedPours } from '../../store/findings.ts';
import type { Derived } from '../../store/piece-state.ts';
import { Gauge } from '../gauge/Gauge.tsx';
import { gaugeSpace } from '../shared/gauge-room.ts';
import { usePiece } from '../shared/piece.ts';
import { useViewport } from '../shared/viewport.ts';
import { GaugeHands } from './GaugeHands.tsx';
import { sectionNow } from './scene-now.ts';
import { useComposeUi } from './ui.ts';

export function ComposeGauge({ file, derived }: { readonly file: SceneFile; readonly derived: Derived }) {
  const { plan, scene } = derived;
  const finding = usePiece((state) => plan.findings[state.findingAt]);
  const chosen = usePiece((state) => state.chosenPour);
  const choosePour = usePiece((state) => state.choosePour);
  const { narrow, widthPx, heightPx } = gaugeSpace(useViewport(), true);
  const unit = usePiece((state) => state.units.length);
  const rimFromMm = useComposeUi((ui) => ui.rimFromMm);
  const section = useMemo(() => sectionNow(derived, file), [derived, file]);
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
      onChoose={(pour) => choosePour(chosen === pour ? null : pour)}
      unit={unit}
      leastHeightMm={rimFromMm ?? undefined}
      widthPx={widthPx}
      heightPx={heightPx}
      hands={(model) => <GaugeHands file={file} model={model} narrow={narrow} widthPx={widthPx} />}
    />
  );
}
