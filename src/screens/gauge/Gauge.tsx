/** The gauge: the true-scale section with its pours, and below it the whole section where the mold is cut short. */
import { useId, useMemo, type ReactNode } from 'react';
import type { Section } from '../../core/sheet/section.ts';
import { BarGauge } from './BarGauge.tsx';
import { gaugeModel, gaugeWords, type GaugeModel } from './gauge-model.ts';
import { GaugeDrawing } from './GaugeDrawing.tsx';
import type { LengthUnit } from './height-scale.ts';
import { PourTags } from './PourTags.tsx';
import { WholeSection } from './WholeSection.tsx';
import './gauge.css';

export interface GaugeProps {
  readonly section: Section;
  /** Numbers of pours with tinted resin. */
  readonly tinted: ReadonlySet<number>;
  /** Ids of figures that look to the left. */
  readonly leftward: ReadonlySet<string>;
  readonly halted: ReadonlySet<number>;
  /** Safe depth of each pour that heat was judged for, mm. */
  readonly safe: ReadonlyMap<number, number>;
  /** Pours of the finding that is shown, and how to mark them. */
  readonly marked: ReadonlySet<number>;
  readonly mark: 'halt' | 'caution' | 'note' | null;
  readonly chosen: number | null;
  /** The mold is filled to the top of this pour, 0: empty. Left out: the whole piece. */
  readonly poured?: number;
  /** Ids of what is set or painted after that. */
  readonly later?: ReadonlySet<string>;
  readonly onChoose: (pour: number) => void;
  /** What heights and depths are written in. */
  readonly unit: LengthUnit;
  /** The scale is of a mold at least this high, mm: it stays while the rim is in hand. */
  readonly leastHeightMm?: number;
  /** The column and the height it may take, px. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** What lies over the picture and can be taken hold of. */
  readonly hands?: (model: GaugeModel) => ReactNode;
}

/** A column narrower than this has no room for names and silhouettes, px. */
const NARROW_PX = 200;
const RIM_PX = 34;
const FLOOR_PX = 17;
const TAGS_PX = 78;
const WHOLE_SECTION_PX = 150;

export function Gauge(props: GaugeProps) {
  return props.widthPx < NARROW_PX ? <BarGauge {...props} /> : <WideGauge {...props} />;
}

function WideGauge(props: GaugeProps) {
  const { section, leftward, unit, leastHeightMm, widthPx, heightPx } = props;
  const prefix = useId();
  const model = useMemo(() => {
    const room = (below: number) => ({ leftPx: widthPx >= 400 ? 80 : 70, rightPx: widthPx - TAGS_PX - 14, topPx: RIM_PX, bottomPx: heightPx - FLOOR_PX - below, staffPx: 9, leftward, unit, leastHeightMm });
    const cutShort = gaugeModel(section, room(WHOLE_SECTION_PX));
    // A mold that is all there needs no second drawing, and may have its room.
    const whole = gaugeModel(section, room(0));
    return whole.breakX === null ? whole : cutShort.breakX === null ? whole : cutShort;
  }, [section, leftward, unit, leastHeightMm, widthPx, heightPx]);
  const drawnPx = model.floor + FLOOR_PX;
  return (
    <section className="gauge" aria-label="Gauge">
      <div className="gauge-drawing" style={{ height: drawnPx }}>
        <GaugeDrawing {...props} model={model} prefix={prefix} widthPx={widthPx} heightPx={drawnPx} floorPx={FLOOR_PX} label={gaugeWords(section, props.halted, unit)} />
        <PourTags {...props} tags={model.tags} lines={model.lineTags} leftPx={model.right + 32} widthPx={TAGS_PX - 20} />
        {props.hands?.(model)}
      </div>
      {model.breakX !== null && <WholeSection {...props} prefix={prefix} leftPx={model.left - 20} widthPx={model.right - model.left + 40} />}
    </section>
  );
}
