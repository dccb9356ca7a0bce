/** The plan as plain text, for a terminal or a note. */
import { counted, dyeGrams, grams, listed, ml, mm, plain } from '../units/format.ts';
import { dayAndTime } from '../units/when.ts';
import type { Scene } from '../scene/scene.ts';
import { otherGoals } from './best/goal-words.ts';
import { coatAmounts, faceName, faceLine } from './finishing/finish-lines.ts';
import { doNotPour } from './halts.ts';
import { roomLimit, safeDepth, softensFirst, warmest } from './heat-words.ts';
import type { Cost, FinishingPlan, Plan, Pour } from './plan.ts';
import { classLines } from './runs/class-words.ts';
import { costLines, kitLines, missingPrices } from './shop/shop-words.ts';

const WORD = { halt: 'DO NOT POUR', caution: 'caution', note: 'note' } as const;

/** Lines that stand on their own; no-break spaces are plain ones here. A piece `amongOthers` shares kits that are told for all of them. */
export function planText(scene: Scene, plan: Plan, { amongOthers = false }: { readonly amongOthers?: boolean } = {}): string {
  const lines: string[] = [];
  const halts = plan.findings.filter((finding) => finding.severity === 'halt');
  lines.push(plan.scene, '='.repeat(plan.scene.length), '');
  lines.push(`${counted(plan.pours.length, 'pour')}, ${plan.ready === undefined ? 'done' : scene.mold.keep ? 'cured' : 'out of the mold'} ${dayAndTime(plan.finish)}${plan.ready === undefined ? '' : `, finished ${dayAndTime(plan.ready)}`}. Cast ${scene.cast.replace('-', ' ')}.${plan.copies > 1 ? ` ${plain(plan.copies, 0)} at once: net is for one, mixes are for all.` : ''}`);
  lines.push(`The mold holds ${ml(plan.mold.capacityMl)} to the rim, ${ml(plan.mold.fillVolumeMl)} to ${mm(scene.fillMm)}. Finished weight ${plan.mold.finishedG === null ? 'unknown: something in it has no weight' : grams(plan.mold.finishedG)}.`);
  const softens = softensFirst(plan.pours);
  if (softens) lines.push(softens);
  if (halts.length > 0) lines.push('', `DO NOT POUR: ${counted(halts.length, 'reason')}, first below.`);
  if (plan.findings.length > 0) {
    lines.push('', 'To know first');
    for (const { severity, message, remedy } of plan.findings) lines.push(`  ${WORD[severity]}: ${message} ${remedy}`);
  }
  if (plan.class) lines.push('', 'The class', ...classLines(scene, plan.class).map((line) => `  ${line}`));
  lines.push('', 'Pours');
  for (const pour of plan.pours) lines.push(...pourLines(scene, plan, pour));
  lines.push('', 'Steps');
  for (const step of plan.steps) lines.push(`  ${dayAndTime(step.from)}  ${step.kind}: ${step.text}`);
  if (plan.finishing) lines.push('', 'Finish', ...finishText(scene, plan.finishing).map((line) => `  ${line}`));
  if (plan.goals && plan.goals.length > 1) lines.push('', 'Other goals', ...otherGoals(plan).map((line) => `  ${line}`));
  lines.push('', amongOthers ? 'Its share; kits as if bought for it alone, those for all of them stand above' : 'To buy, at least');
  for (const row of plan.shopping) {
    lines.push(`  ${scene.formulas.get(row.formula)?.name ?? row.formula}: ${ml(row.mixMl)} mixed; part A (resin) ${ml(row.partA.ml)}, ${grams(row.partA.g)}; part B (hardener) ${ml(row.partB.ml)}, ${grams(row.partB.g)}`);
    for (const line of kitLines(row)) lines.push(`     ${line}`);
  }
  if (plan.cost) lines.push('', amongOthers ? 'Cost of its share, kits as if bought for it alone' : 'Cost', ...costText(scene, plan.cost).map((line) => `  ${line}`));
  lines.push('', 'Cautions');
  for (const caution of plan.cautions) lines.push(`  ${caution}`);
  return `${lines.join('\n').replace(/\u00a0/g, ' ')}\n`;
}

function finishText(scene: Scene, { faces, coats, coatHalt, handsH }: FinishingPlan): string[] {
  const coating = coats.map((coat) => `Flood coat, ${faceName(coat)}, ${dayAndTime(coat.starts)}: ${coatHalt ?? coatAmounts(coat, scene.bench.scaleG)}`);
  return [...faces.map(faceLine), ...coating, `Hands on it ${plain(handsH, 2)} h.`];
}

function costText(scene: Scene, cost: Cost): string[] {
  const missing = missingPrices(cost, (id) => scene.formulas.get(id)?.name ?? id);
  return [...costLines(cost).map(({ what, amount }) => `${what}: ${amount}`), ...(missing === null ? [] : [missing])];
}

function pourLines(scene: Scene, plan: Plan, pour: Pour): string[] {
  const halted = doNotPour(plan.findings, pour.index);
  const name = scene.formulas.get(pour.formula)?.name ?? pour.formula;
  const route = pour.route === null ? '' : pour.route === 'wet-on-tacky' ? ', onto the tacky surface' : ', after cure, scuff and wipe';
  const lines = [
    `  ${pour.index}. ${plain(pour.fromMm)} to ${mm(pour.toMm)} (${mm(pour.depthMm, 2)}), ${name}, ${dayAndTime(pour.starts)}${route}`,
    `     ${pour.why}`,
  ];
  if (pour.box) lines.push(`     In the curing box ${dayAndTime(pour.box.from)} to ${dayAndTime(pour.box.to)}`);
  if (pour.heat) lines.push(`     Heat: ${warmest(pour.heat)}. Safe to ${safeDepth(pour.heat)}. ${roomLimit(pour.heat)} ${pour.heat.bubbles.words}`);
  if (halted !== null) return [...lines, `     ${halted}`];
  lines.push(`     Net ${ml(pour.netMl)}, mix ${ml(pour.mixMl)}: part A (resin) ${grams(pour.partA.g)}, part B (hardener) ${grams(pour.partB.g)}, to ${mm(pour.fillMarkFromRimMm)} from the rim`);
  if (pour.shared) lines.push(`     Cups shared with ${listed(pour.shared.with)}: mixed once for ${plain(pour.shared.molds, 0)} molds, ${ml(pour.shared.mixMl)} in all`);
  pour.batches.forEach((batch, i) => {
    const cup = pour.batches.length > 1 ? `cup ${i + 1} of ${pour.batches.length}: ` : '';
    const [a, ab] = batch.scaleStopsG;
    const stops = ab === undefined ? `stop the scale at ${grams(a, scene.bench.scaleG)}` : `stop the scale at ${grams(a, scene.bench.scaleG)}, then ${grams(ab, scene.bench.scaleG)}`;
    const tint = batch.tintG > 0 ? `, dye ${dyeGrams(batch.tintG, scene.bench.dyeScaleG)} weighed apart` : '';
    const premix = batch.premix ? `, or premixed 1:${batch.premix.partsA} in part A: part A to ${grams(batch.premix.scaleStopsG[0], scene.bench.scaleG)}, premix to ${grams(batch.premix.scaleStopsG[1], scene.bench.scaleG)}${batch.premix.scaleStopsG.length > 2 ? `, part B to ${grams(batch.premix.scaleStopsG[2], scene.bench.scaleG)}` : ''}` : '';
    lines.push(`     ${cup}${stops}${tint}${premix}; usable ${plain(Math.floor(batch.usableMin), 0)} min`);
  });
  const tacky = pour.opens < pour.closes ? `Tacky ${dayAndTime(pour.opens)} to ${dayAndTime(pour.closes)}` : 'Sets too soon to be poured on tacky here';
  lines.push(`     ${tacky}; can be painted ${dayAndTime(pour.paintable)}`);
  return lines;
}
