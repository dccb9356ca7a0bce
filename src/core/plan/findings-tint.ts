/** Findings about dye: too little for the scale, or more than resin takes. */
import { premixFor, tooLittleToWeigh } from '../resin/premix.ts';
import { mixOf } from '../resin/formula.ts';
import { grams, percent, plain } from '../units/format.ts';
import type { Planned, PlannedPour } from './context.ts';
import type { Finding } from './plan.ts';
import { poursNamed } from './pours-named.ts';

/** Percent of the mix: dye concentrate is used to 0.5, at most 1 to 2; pastes and mica to 5 (common practice, no source). */
const DYE_CAUTION = 1;
const DYE_HALT = 2;
const PASTE_CAUTION = 5;
const DYE = `${DYE_CAUTION} to ${DYE_HALT}\u00a0%`;
const FLOW = 'resin can stay soft and turn cloudy';
/** Percents of decimals carry noise far below this. */
const ROUNDING = 1e-9;

export function tintFindings(planned: Planned): Finding[] {
  return [...heavy(planned), ...coarse(planned)];
}

/**
 * Too much makes resin soft and cloudy. What lets a measured share of light through is dye. What was typed without a swatch
 * may be dye or mica: over what dye may be it is said, over what mica may be it is too much of either.
 */
function heavy({ pours }: Planned): Finding[] {
  const by = (which: (share: number, isDye: boolean, aimed: boolean) => boolean) => pours.filter(({ tint }) => tint !== null && which(tint.percent - ROUNDING, tint.passes !== null, tint.aimed));
  return [
    ...tooMuch(by((share, _isDye, aimed) => aimed && share > DYE_HALT), 'halt', `Over ${DYE} of dye ${FLOW}.`),
    ...tooMuch(by((share, isDye, aimed) => isDye && share > DYE_CAUTION && !(aimed && share > DYE_HALT)), 'caution', `Over ${DYE} of dye ${FLOW}.`),
    ...tooMuch(by((share, isDye) => !isDye && share > PASTE_CAUTION), 'caution', `Over ${PASTE_CAUTION}\u00a0% of mica or paste, and over ${DYE} of dye, ${FLOW}.`),
    ...tooMuch(by((share, isDye) => !isDye && share > DYE_HALT && share <= PASTE_CAUTION), 'caution', `Mica and paste go to ${PASTE_CAUTION}\u00a0%, dye only to ${DYE}: over that ${FLOW}.`),
  ];
}

/** One finding for all of them, with the largest share. */
function tooMuch(pours: readonly PlannedPour[], severity: 'halt' | 'caution', why: string): Finding[] {
  if (pours.length === 0) return [];
  const most = pours.reduce((a, b) => (b.tint!.percent > a.tint!.percent ? b : a)).tint!;
  const which = poursNamed(pours);
  return [
    {
      code: 'dye-heavy',
      severity,
      subject: which,
      message: `${which.replace(/^p/, 'P')} would take ${pours.length > 1 ? 'up to ' : ''}${percent(most.percent / 100, 2)} of ${pours.length > 1 ? 'their' : 'its'} weight in ${most.passes === null ? 'color' : 'dye'}. ${why}`,
      remedy: most.aimed ? 'Let more light through, spread it evenly over the pours, or use a stronger dye.' : 'Use less, or a stronger color.',
      pours: pours.map(({ index }) => index),
    },
  ];
}

function coarse({ scene, pours }: Planned): Finding[] {
  const { dyeScaleG } = scene.bench;
  const few = pours.filter(({ batches: [batch] }) => tooLittleToWeigh(batch.tintG, dyeScaleG));
  if (few.length === 0) return [];
  const least = few.reduce((a, b) => (b.batches[0].tintG < a.batches[0].tintG ? b : a));
  const dyeG = least.batches[0].tintG;
  const which = poursNamed(few);
  return [
    {
      code: 'scale-coarse',
      severity: 'caution',
      subject: 'tint',
      message: `A scale that shows ${grams(dyeScaleG, dyeScaleG)} is too coarse for the dye of ${which}: ${plain(dyeG, 3)}\u00a0g a cup at the least.`,
      remedy: remedyFor(least, scene.bench),
    },
  ];
}

function remedyFor({ batches: [batch], formulaUsed }: PlannedPour, bench: Planned['scene']['bench']): string {
  const finer = 'Weigh it on a finer scale';
  const premix = premixFor({ dyeG: batch.tintG, partAG: batch.partA.g, bPerAByMass: mixOf(formulaUsed).bPerAByMass, ...bench });
  if (!premix) return `${finer}.`;
  return `${finer}, or premix it 1:${premix.partsA} in part A (resin): ${plain(premix.g, 2)}\u00a0g of premix bring ${plain(batch.tintG, 3)}\u00a0g of dye, and their ${plain(premix.partAG, 2)}\u00a0g of part A are left out of the cup.`;
}
