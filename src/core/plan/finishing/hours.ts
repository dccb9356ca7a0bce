/**
 * How long hands are at each piece of finishing, minutes for one piece. From memory, no source: a person's own hours
 * replace them. Rounded up to quarters of an hour.
 */
import type { Finishing, Mold } from '../../scene/scene.ts';
import { edgesMm, type FaceWork } from './faces.ts';
import { MINUTES_PER_HOUR } from '../../units/time.ts';

/** Hours for 100 cm²: to make it flat, for each grit, for compound and polish. */
const FLATTEN_H = 0.1;
const GRIT_H = 0.05;
const POLISH_H = 0.15;
const TRIM_H = 0.25;
/** For a meter of edges. */
const EDGE_H = 0.25;
const BASE_H: Readonly<Record<Finishing['base'], number>> = { none: 0, felt: 0.25, wood: 1, light: 1.5 };

const MM2_PER_100_CM2 = 10_000;
const QUARTER_MIN = 15;
/** Products of hours carry noise far below this, minutes. */
const ROUNDING_MIN = 1e-6;

export interface HandsMin {
  readonly trim: number;
  readonly edges: number;
  /** Of each of the works. */
  readonly sand: readonly number[];
  readonly polish: readonly number[];
  readonly base: number;
}

/** Minutes for one piece; those of all faces together that were typed are shared out by what each would take. */
export function handsOf({ hours, edgeMm, base }: Finishing, { mold, fillMm, works }: { readonly mold: Mold; readonly fillMm: number; readonly works: readonly FaceWork[] }): HandsMin {
  const hundreds = ({ areaMm2 }: FaceWork) => areaMm2 / MM2_PER_100_CM2;
  const bevels = edgeMm > 0 && !mold.keep;
  return {
    trim: typed(hours.trim) ?? quarters(TRIM_H),
    edges: bevels ? (typed(hours.edges) ?? quarters((edgesMm(mold, fillMm) / 1000) * EDGE_H)) : 0,
    sand: shared(works.map((work) => (work.grits.length === 0 ? 0 : hundreds(work) * (FLATTEN_H + work.grits.length * GRIT_H))), hours.sand),
    polish: shared(works.map((work) => (work.finish === 'polished' ? hundreds(work) * POLISH_H : 0)), hours.polish),
    base: base === 'none' ? 0 : (typed(hours.base) ?? quarters(BASE_H[base])),
  };
}

function shared(ruleH: readonly number[], typedH: number | undefined): number[] {
  const all = ruleH.reduce((sum, each) => sum + each, 0);
  return ruleH.map((each) => (typedH === undefined || all === 0 ? quarters(each) : wholeMinutes(((typedH * each) / all) * MINUTES_PER_HOUR)));
}

const typed = (hours: number | undefined): number | null => (hours === undefined ? null : wholeMinutes(hours * MINUTES_PER_HOUR));
export const wholeMinutes = (minutes: number): number => Math.ceil(minutes - ROUNDING_MIN);
const quarters = (hours: number): number => Math.ceil((hours * MINUTES_PER_HOUR) / QUARTER_MIN - ROUNDING_MIN) * QUARTER_MIN;
