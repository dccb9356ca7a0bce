/** The gauge at the left of every screen but a printed sheet, with what is chosen and what the finding shown concerns. */
import { useMemo } from 'react';
import { laterThan } from '../../store/pour-steps.ts';
import { Gauge } from '../gauge/Gauge.tsx';
import { choosePourAndShow } from './choose-pour.ts';
import { useGaugeProps } from './gauge-props.ts';
import { gaugeSpace } from './gauge-room.ts';
import { useWithCreatures } from './painted-section.ts';
import { useDerived, usePiece } from './piece.ts';
import { useViewport } from './viewport.ts';

export function GaugeColumn() {
  const derived = useDerived();
  const { plan } = derived;
  const section = useWithCreatures(derived.section, derived.document);
  const common = useGaugeProps(derived);
  const { chosen } = common;
  const choosePour = usePiece((state) => state.choosePour);
  const later = useMemo(() => (chosen === null ? undefined : laterThan(plan, chosen)), [plan, chosen]);
  const { widthPx, heightPx } = gaugeSpace(useViewport(), null);
  return (
    <Gauge
      {...common}
      section={section}
      poured={chosen ?? undefined}
      later={later}
      onChoose={(pour) => choosePourAndShow(pour === chosen ? null : pour, choosePour)}
      widthPx={widthPx}
      heightPx={heightPx}
    />
  );
}
