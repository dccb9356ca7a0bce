/** The gauge at work: the section as the document has it this moment, and the hands that set heights on it. */
import { useMemo } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import type { Derived } from '../../store/piece-state.ts';
import { Gauge } from '../gauge/Gauge.tsx';
import { useGaugeProps } from '../shared/gauge-props.ts';
import { useWithCreatures } from '../shared/painted-section.ts';
import { gaugeSpace } from '../shared/gauge-room.ts';
import { usePiece } from '../shared/piece.ts';
import { useViewport } from '../shared/viewport.ts';
import { GaugeHands } from './GaugeHands.tsx';
import { sectionNow } from './scene-now.ts';
import { useComposeUi } from './ui.ts';

export function ComposeGauge({ file, derived, topBarPx }: { readonly file: SceneFile; readonly derived: Derived; readonly topBarPx: number }) {
  const common = useGaugeProps(derived);
  const choosePour = usePiece((state) => state.choosePour);
  const { narrow, widthPx, heightPx } = gaugeSpace(useViewport(), topBarPx);
  const rimFromMm = useComposeUi((ui) => ui.rimFromMm);
  const section = useWithCreatures(useMemo(() => sectionNow(derived, file), [derived, file]), file);
  return (
    <Gauge
      {...common}
      section={section}
      onChoose={(pour) => choosePour(common.chosen === pour ? null : pour)}
      leastHeightMm={rimFromMm ?? undefined}
      widthPx={widthPx}
      heightPx={heightPx}
      hands={(model) => <GaugeHands file={file} model={model} narrow={narrow} widthPx={widthPx} />}
    />
  );
}
