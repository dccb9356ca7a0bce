/** What the person asked of lines, formulas and cups that a plan does not keep to: even pours follow the fills alone. */
import type { Scene } from '../../scene/scene.ts';
import { listed, plain } from '../../units/format.ts';
import { MINUTES_PER_HOUR } from '../../units/time.ts';
import type { Planned } from '../context.ts';
import type { Finding } from '../plan.ts';
import type { Slice } from '../slices.ts';

/** Pins typed in decimals carry noise far below this, mm. */
const SAME_MM = 1e-6;
/** Heights typed in decimals carry noise far below this, mm. */
const ROUNDING_MM = 1e-9;

type Poured = Pick<Slice, 'fromMm' | 'toMm' | 'layerAt' | 'formula'>;

interface Missed {
  /** Heights asked for where no line is. */
  readonly pinsMm: readonly number[];
  /** Lines where none was asked for. */
  readonly linesMm: readonly number[];
  /** Ids of formulas that are not among those to choose from. */
  readonly formulas: readonly string[];
}

/** From the floor up. */
function missedBy({ plan }: Scene, pours: readonly Poured[]): Missed {
  const bottomMm = pours[0].fromMm;
  const topMm = pours[pours.length - 1].toMm;
  const within = (mm: number) => plan.avoid.some(({ fromMm, toMm }) => mm >= fromMm - ROUNDING_MM && mm <= toMm + ROUNDING_MM);
  return {
    pinsMm: plan.pinsMm.filter((pin) => pin > bottomMm && pin < topMm && !pours.some(({ toMm }) => Math.abs(toMm - pin) <= SAME_MM)),
    linesMm: pours.filter(({ toMm, layerAt }) => toMm !== layerAt.toMm && within(toMm)).map(({ toMm }) => toMm),
    formulas: plan.formulas === null ? [] : [...new Set(pours.map(({ formula }) => formula.id))].filter((id) => !plan.formulas!.includes(id)),
  };
}

/** Cups that were asked for are taken for not kept: how many a pour takes is not known here. */
export function keepsWishes(scene: Scene, pours: readonly { readonly slice: Poured }[]): boolean {
  const { pinsMm, linesMm, formulas } = missedBy(scene, pours.map(({ slice }) => slice));
  return scene.plan.cupMin === null && pinsMm.length + linesMm.length + formulas.length === 0;
}

/** Of an even plan; every other goal keeps to what was asked. */
export function wishFindings({ scene, goal, pours }: Planned): Finding[] {
  if (goal !== 'even') return [];
  const { cupMin } = scene.plan;
  const missed = missedBy(scene, pours.map((pour) => ({ ...pour, formula: pour.formulaUsed })));
  const heights = (all: readonly number[]) => listed(all.map((height) => plain(height, 2)));
  const rushed = cupMin === null ? [] : pours.filter(({ batches }) => Math.min(...batches.map(({ usableMin }) => usableMin)) < cupMin || batches.length * cupMin > scene.bench.pourH * MINUTES_PER_HOUR + ROUNDING_MM);
  const said = [
    ...(missed.pinsMm.length > 0 ? [`no line at ${heights(missed.pinsMm)}, where you asked for one`] : []),
    ...(missed.linesMm.length > 0 ? [`a line at ${heights(missed.linesMm)}, where you asked for none`] : []),
    ...(missed.formulas.length > 0 ? [`${listed(missed.formulas.map((id) => scene.formulas.get(id)?.name ?? id))} poured, which you left out of your choice`] : []),
    ...(rushed.length > 0 ? [`no time for cups of ${plain(cupMin!)}\u00a0min in ${rushed.length === 1 ? 'pour' : 'pours'} ${listed(rushed.map(({ index }) => String(index)))}`] : []),
  ];
  if (said.length === 0) return [];
  return [
    {
      code: 'wish-not-kept',
      severity: 'caution',
      subject: 'plan',
      message: `Even pours divide each layer equally, whatever you asked for: ${listed(said)}.`,
      remedy: 'Choose another goal: all the others keep to what you ask.',
    },
  ];
}
