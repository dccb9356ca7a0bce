/** The gauge's picture: walls, staff, bands, bed, planes, figures, break line, and what a halt does to a band. */
import { lengthIn } from '../../core/units/in-units.ts';
import type { GaugeProps } from './Gauge.tsx';
import type { GaugeBand, GaugeModel } from './gauge-model.ts';
import { BREAK_HALF_PX } from './gauge-model.ts';
import { Hatches, hatchId } from './hatches.tsx';
import { SafeMarks } from './SafeMarks.tsx';

const WALL_PX = 20;
/** Free room over the resin that holds one line of words, and two, px. */
const ONE_LINE_PX = 24;
const TWO_LINES_PX = 46;

export interface GaugeDrawingProps extends Pick<GaugeProps, 'section' | 'tinted' | 'halted' | 'safe' | 'chosen' | 'poured' | 'later' | 'unit'> {
  readonly model: GaugeModel;
  readonly prefix: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly floorPx: number;
  readonly label: string;
}

export function GaugeDrawing(props: GaugeDrawingProps) {
  const { section, model, prefix, tinted, halted, safe, chosen, poured = Infinity, later, widthPx, heightPx, floorPx, label } = props;
  const { left, right, top, floor, lean } = model;
  const inside = `M${left} ${top}L${left + lean} ${floor}H${right - lean}L${right} ${top}Z`;
  const walls = `M${left - WALL_PX} ${top}V${floor + floorPx - 1}H${right + WALL_PX}V${top}H${right}L${right - lean} ${floor}H${left + lean}L${left} ${top}Z`;
  const chosenBand = model.bands.find(({ pour }) => pour === chosen);
  return (
    <svg className="gauge-picture" width={widthPx} height={heightPx} viewBox={`0 0 ${widthPx} ${heightPx}`} role="img" aria-label={label}>
      <Hatches prefix={prefix} />
      <clipPath id={`${prefix}-inside`}><path d={inside} /></clipPath>
      <clipPath id={`${prefix}-figures`}><rect x={model.openFrom} y={top} width={model.openTo - model.openFrom} height={floor - top} /></clipPath>
      <text className="label soft" x={left - WALL_PX - 6} y={top - 12} textAnchor="end">depth</text>
      <text className="label soft" x={left + 14} y={top - 12}>height, {props.unit}</text>
      <text className="label soft" x={right + 38} y={top - 12}>pours</text>
      <path d={walls} className="wall" />
      <path d={walls} fill={`url(#${hatchId(prefix, 'wall')})`} />
      <path d={inside} className="paper" />
      <g clipPath={`url(#${prefix}-inside)`}>
        {model.bands.map((band) => (
          <Band key={band.pour} band={band} model={model} prefix={prefix} tinted={tinted.has(band.pour)} halted={halted.has(band.pour)} empty={band.pour > poured} />
        ))}
        {model.shapes.filter(({ kind }) => kind === 'bed').map(({ id, path }) => (
          <g key={id}>
            <path d={path} className="silt" fillRule="evenodd" />
            <path d={path} fill={`url(#${hatchId(prefix, 'bed')})`} className="silt-line" fillRule="evenodd" />
          </g>
        ))}
        {model.planes.map(({ id, path }) => <path key={id} d={path} className={later?.has(id) ? 'ink later' : 'ink'} />)}
        <g clipPath={`url(#${prefix}-figures)`}>
          {model.shapes.filter(({ kind }) => kind === 'figure').map(({ id, path }) => <path key={id} d={path} className={later?.has(id) ? 'figure later' : 'figure'} fillRule="evenodd" />)}
          {model.shapes.filter(({ kind }) => kind === 'creature').map(({ id, path }) => <path key={id} d={path} className="creature" />)}
        </g>
      </g>
      <SafeMarks bands={model.bands.filter(({ pour }) => pour <= poured)} safe={safe} wallAt={(y) => right - leanAt(model, y)} />
      <g clipPath={`url(#${prefix}-inside)`}><BreakLine model={model} /></g>
      {model.bands.filter(({ pour }) => halted.has(pour)).map((band) => <Boards key={band.pour} band={band} model={model} />)}
      <Staff model={model} />
      <path d={`M${left - WALL_PX} ${top}V${floor + floorPx - 1}H${right + WALL_PX}V${top}`} className="outer" />
      <path d={`M${left} ${top}L${left + lean} ${floor}H${right - lean}L${right} ${top}`} className="mold" />
      <path d={`M${left - WALL_PX} ${top}H${left}M${right} ${top}H${right + WALL_PX}`} className="rim" />
      <DepthTicks model={model} x={left - WALL_PX} />
      <ShowFace section={section} model={model} unit={props.unit} />
      {model.names.map(({ id, shown, y }) => <text key={id} className="name halo" x={model.openTo - 8 - (model.openTo === right ? leanAt(model, y) : 0)} y={y} textAnchor="end">{shown}</text>)}
      <Brackets model={model} x={right + WALL_PX + 5} halted={halted} chosen={chosen} />
      {chosenBand && <path d={bandOutline(model, chosenBand)} className="this-pour" />}
    </svg>
  );
}

function bandOutline(model: GaugeModel, { y, height }: GaugeBand): string {
  const { left, right } = model;
  const [upper, lower] = [leanAt(model, y), leanAt(model, y + height)];
  return `M${left + upper} ${y}H${right - upper}L${right - lower} ${y + height}H${left + lower}Z`;
}

function Band({ band, model, prefix, tinted, halted, empty }: { readonly band: GaugeBand; readonly model: GaugeModel; readonly prefix: string; readonly tinted: boolean; readonly halted: boolean; readonly empty: boolean }) {
  const box = { x: model.left, y: band.y, width: model.right - model.left, height: band.height };
  if (empty) return <path d={`M${model.left} ${band.y}H${model.right}`} className="pour-line to-come" />;
  return (
    <g>
      <rect {...box} className={halted ? 'brick-wash' : tinted ? 'water' : 'water clear'} />
      {!halted && <rect {...box} fill={`url(#${hatchId(prefix, band.hatch)})`} className="hatched" />}
      <path d={`M${model.left} ${band.y}H${model.right}`} className="pour-line" />
    </g>
  );
}

/** Sluice boards in both walls, the band crossed out, and the words. */
function Boards({ band, model }: { readonly band: GaugeBand; readonly model: GaugeModel }) {
  const { y, height } = band;
  const { left, right } = model;
  const boardHeight = Math.max(height, 6);
  return (
    <g>
      <path d={`M${left} ${y}L${right} ${y + height}M${left} ${y + height}L${right} ${y}`} className="crossed" />
      <path d={`M${left} ${y}H${right}M${left} ${y + height}H${right}`} className="barred" />
      <rect x={left - WALL_PX} y={y} width={WALL_PX + 9} height={boardHeight} className="board" />
      <rect x={right} y={y} width={WALL_PX} height={boardHeight} className="board" />
      <text className="halt-words halo" x={Math.max(model.openFrom + 10, left + 40) + leanAt(model, y)} y={height >= 20 ? y + height / 2 + 5 : y + height + 16}>do not pour</text>
    </g>
  );
}

/** Two wavy lines with nothing between: water is left out across. */
function BreakLine({ model: { breakX, top, floor } }: { readonly model: GaugeModel }) {
  if (breakX === null) return null;
  const sixth = (floor - top) / 6;
  const bend = (down: 1 | -1): string => `c${5 * down} ${sixth * down} ${5 * down} ${2 * sixth * down} 0 ${3 * sixth * down}s${-5 * down} ${2 * sixth * down} 0 ${3 * sixth * down}`;
  const l = breakX - BREAK_HALF_PX;
  const r = breakX + BREAK_HALF_PX;
  return (
    <g>
      <path d={`M${l} ${top}${bend(1)}H${r}${bend(-1)}Z`} className="paper" />
      <path d={`M${l} ${top}${bend(1)}M${r} ${floor}${bend(-1)}`} className="break" />
    </g>
  );
}

/** How far the leaning walls stand in at a height. */
function leanAt({ lean, top, floor }: GaugeModel, y: number): number {
  return (lean * (y - top)) / (floor - top);
}

function Staff({ model }: { readonly model: GaugeModel }) {
  const { left, staff, heightLabels } = model;
  const at = (y: number): number => left + leanAt(model, y);
  return (
    <g>
      {staff.map(({ y, height, dark }) => <rect key={y} x={at(y + height)} y={y} width="9" height={height} className={dark ? 'staff dark' : 'staff'} />)}
      {heightLabels.map(({ label, y }, i) => (
        <g key={label}>
          <path d={`M${at(y) + 9} ${y}h5`} className="tick" />
          <text className="number halo" x={at(y) + 16} y={i === 0 ? y - 4 : y + 5}>{label}</text>
        </g>
      ))}
    </g>
  );
}

function DepthTicks({ model, x }: { readonly model: GaugeModel; readonly x: number }) {
  const length = { fine: 5, middle: 8, long: 12 } as const;
  return (
    <g>
      {model.depthTicks.map(({ y, rank, label }) => (
        <g key={y}>
          <path d={`M${x} ${y}h${-length[rank]}`} className={rank === 'fine' ? 'tick fine' : 'tick'} />
          {label !== null && <text className="number" x={x - 16} y={y + 5} textAnchor="end">{label}</text>}
        </g>
      ))}
    </g>
  );
}

/** The level mark at the show face, and how much room is left to the rim. */
function ShowFace({ section, model, unit }: Pick<GaugeDrawingProps, 'section' | 'model' | 'unit'>) {
  const { left, fillY, faceY, top, openFrom, openTo, right } = model;
  const free = fillY - top;
  const faceDown = section.cast === 'face-down';
  const lean = leanAt(model, faceY);
  const x = Math.max(openFrom + 10, left + 36);
  const markX = openTo - 22 - (openTo === right ? lean : 0);
  return (
    <g>
      {free >= (faceDown ? ONE_LINE_PX : TWO_LINES_PX) && <text className="label soft" x={x} y={top + 17}>{lengthIn(section.heightMm - section.fillMm, unit)} free to the rim</text>}
      <text className={free >= ONE_LINE_PX && !faceDown ? 'label' : 'label halo'} x={x + lean} y={faceDown ? faceY - 24 : free >= ONE_LINE_PX ? fillY - 8 : fillY + 17}>show face</text>
      <path d={`M${markX - 8} ${faceY - 13}h16l-8 11z`} className="level-mark" />
      <path d={`M${left + lean} ${faceY}H${right - lean}M${markX - 11} ${faceY + 3}h22M${markX - 7} ${faceY + 6}h14M${markX - 3} ${faceY + 9}h6`} className="tick" />
    </g>
  );
}

/** A bracket at the right of each band, with a leader where its tag stands elsewhere. */
function Brackets({ model, x, halted, chosen }: { readonly model: GaugeModel; readonly x: number; readonly halted: ReadonlySet<number>; readonly chosen: number | null }) {
  const leads = new Map(model.tags.map(({ pour, bandY, tagY }) => [pour, { bandY, tagY }]));
  return (
    <g>
      {model.bands.map(({ pour, y, height }) => {
        const lead = leads.get(pour);
        const inset = Math.min(1.5, height / 4);
        return (
          <path
            key={pour}
            className={halted.has(pour) ? 'bracket halt' : chosen === pour ? 'bracket chosen' : 'bracket'}
            d={`M${x - 2} ${y + inset}h5v${height - 2 * inset}h-5${lead && Math.abs(lead.tagY - lead.bandY) > 2 ? `M${x + 3} ${lead.bandY}L${x + 12} ${lead.tagY}` : ''}`}
          />
        );
      })}
    </g>
  );
}
