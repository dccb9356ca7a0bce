/** Pieces that are poured together, as plain text: what it wins, the order at the bench, shared cups, what to buy. */
import type { Scene } from '../../scene/scene.ts';
import { counted, dyeGrams, grams, listed, ml, plain } from '../../units/format.ts';
import { dayAndTime } from '../../units/when.ts';
import type { Plan } from '../plan.ts';
import { kitLines } from '../shop/shop-words.ts';
import { workShownMin } from './work-shown.ts';
import { isHalted, type BenchTurn, type Together, type TogetherPour } from './together-plan.ts';

/** Lines that stand on their own; no-break spaces are plain ones here. */
export function togetherText(scenes: readonly Scene[], together: Together, plans: readonly Plan[]): string {
  const lines = ['Poured together', '===============', '', together.words];
  if (!together.whole) lines.push('Not every order was tried: there are too many. This is the best of those that looked best.');
  for (const { severity, message, remedy } of together.findings) lines.push(`  ${severity}: ${message} ${remedy}`);
  lines.push('', 'Pieces', ...together.pieces.map(({ scene, starts, finish }, i) => `  ${i + 1}. ${scene}: begins ${dayAndTime(starts)}, done ${dayAndTime(finish)}`));
  lines.push('', 'At the bench');
  for (const turn of together.bench) {
    lines.push(`  ${dayAndTime(turn.from)}  ${turnWords(together, turn)}`);
    const pour = turn.pouring === null ? null : together.poured[turn.pouring - 1];
    if (pour && pour.of.length > 1) lines.push(`     ${isHalted(plans, pour) ?? `${cupWords(scenes, pour)} ${shareWords(together, plans, pour, scenes[0].bench.scaleG)}`}`);
  }
  lines.push('', 'To buy for all of them, at least');
  for (const row of together.shopping) {
    lines.push(`  ${nameIn(scenes, row.formula)}: ${ml(row.mixMl)} mixed; part A (resin) ${ml(row.partA.ml)}, ${grams(row.partA.g)}; part B (hardener) ${ml(row.partB.ml)}, ${grams(row.partB.g)}`);
    for (const line of kitLines(row)) lines.push(`     ${line}`);
  }
  return `${lines.join('\n').replace(/\u00a0/g, ' ')}\n\n`;
}

/** Formulas that are poured together are of one label, whatever a scene calls them. */
function nameIn(scenes: readonly Scene[], formula: string): string {
  return scenes.map(({ formulas }) => formulas.get(formula)?.name).find((name) => name !== undefined) ?? formula;
}

/** `pour 3: Reef, pour 2, and Pond, pour 1`. */
export function turnWords({ pieces, poured }: Pick<Together, 'pieces' | 'poured'>, { kind, pieces: of, pouring }: BenchTurn): string {
  if (pouring === null) return `${kind} ${pieces[of[0] - 1].scene}`;
  return `pour ${pouring}: ${listed(poured[pouring - 1].of.map(({ piece, pour }) => `${pieces[piece - 1].scene}, pour ${pour}`))}`;
}

/** Cups that are mixed once for several pieces. */
export function cupWords(scenes: readonly Scene[], { formula, of, batches, mixMl }: TogetherPour): string {
  const [cup] = batches;
  const { formulas, bench } = scenes[of[0].piece - 1];
  const stops = cup.scaleStopsG.map((stop) => grams(stop, bench.scaleG)).join(', then ');
  const molds = of.reduce((sum, one) => sum + one.molds, 0);
  const dye = cup.tintG > 0 ? `, dye ${dyeGrams(cup.tintG, bench.dyeScaleG)} weighed apart` : '';
  return `${counted(batches.length, 'cup')} of ${formulas.get(formula)?.name ?? formula} for ${plain(molds, 0)} molds, mixed once: ${ml(mixMl)} in all; ${batches.length > 1 ? 'in each ' : ''}stop the scale at ${stops}${dye}; usable ${plain(Math.floor(cup.usableMin), 0)} min, poured out in ${plain(workShownMin(cup), 0)}.`;
}

/** `Of it 120.3 g for Reef and 80.1 g for Pond.`, of cups that are mixed once. */
export function shareWords({ pieces }: Pick<Together, 'pieces'>, plans: readonly Plan[], { of }: Pick<TogetherPour, 'of'>, scaleG: number): string {
  return `Of it ${listed(of.map(({ piece, pour }) => `${grams(plans[piece - 1].pours[pour - 1].mixG, scaleG)} for ${pieces[piece - 1].scene}`))}.`;
}
