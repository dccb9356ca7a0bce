/** Findings about dye: too little for the scale, or more than resin takes. */
import { premixFor, tooLittleToWeigh } from '../resin/premix.ts';
import { mixOf } from '../resin/formula.ts';
import { grams, listed, percent, plain } from '../units/format.ts';
import type { Planned, PlannedPour } from './context.ts';
import type { Finding } from './plan.ts';

/** Percent of the mix: dye concentrate is used to 0.5, at most 1 to 2; pastes and mica to 5 (common practice, no source). */
const DYE_CAUTION = 1;
const DYE_HALT = 2;
const PASTE_CAUTION = 5;
/** Percents of decimals carry noise far below this. */
const ROUNDING = 1e-9;

export function tintFindings(planned: Planned): Finding[] {
  return [...heavy(planned), ...coarse(planned)];
}

/** Too much makes resin soft and cloudy. What was worked out from a target is dye; what was typed may be mica. */
function heavy({ pours }: Planned): Finding[] {
  return pours.flatMap((pour): Finding[] => {
    if (!pour.tint) return [];
    const { percent: share, aimed } = pour.tint;
    if (!(share > (aimed ? DYE_CAUTION : PASTE_CAUTION) + ROUNDING)) return [];
    return [
      {
        code: 'dye-heavy',
        severity: aimed && share > DYE_HALT + ROUNDING ? 'halt' : 'caution',
        subject: `pour ${pour.index}`,
        message: `Pour ${pour.index} would take ${percent(share / 100, 2)} of its weight in ${aimed ? 'dye' : 'color'}. Over ${aimed ? `${DYE_CAUTION} to ${DYE_HALT}` : PASTE_CAUTION}\u00a0% resin can stay soft and turn cloudy.`,
        remedy: aimed ? 'Let more light through, spread it evenly over the pours, or use a stronger dye.' : 'Use less, or a stronger color.',
        pours: [pour.index],
      },
    ];
  });
}

function coarse({ scene, pours }: Planned): Finding[] {
  const { dyeScaleG } = scene.bench;
  const few = pours.filter(({ batches: [batch] }) => tooLittleToWeigh(batch.tintG, dyeScaleG));
  if (few.length === 0) return [];
  const least = few.reduce((a, b) => (b.batches[0].tintG < a.batches[0].tintG ? b : a));
  const dyeG = least.batches[0].tintG;
  const which = few.length === 1 ? `pour ${least.index}` : `pours ${listed(few.map(({ index }) => String(index)))}`;
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
