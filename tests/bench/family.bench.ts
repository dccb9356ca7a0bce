/** What a verdict costs: a family through ten pours, its middle member alone, a label's family; and 1,000 random labels held. */
import { completeFormula } from '../../src/core/resin/formula.ts';
import type { Mold, Room } from '../../src/core/scene/scene.ts';
import { familyOf } from '../../src/core/cure/family.ts';
import type { BuildPour } from '../../src/core/cure/verdict-types.ts';
import { judgeBuild } from '../core/cure/judged.ts';
import { labelFlaw } from '../core/cure/label-property.ts';
import type { BenchRow } from './rows.ts';

const ROUNDS = 7;
const POURS = 10;
const LABELS = 1000;
/** Of a second, in which dragging shows all members' verdicts (design). */
const FAMILY_ALLOWED_S = 1;
/** While dragging the middle member alone answers at once: in so many ms. */
const MEAN_ALLOWED_MS = 30;
/** To read a label, once for each. */
const LABEL_ALLOWED_S = 0.5;

export async function familyBench(): Promise<BenchRow[]> {
  const formula = completeFormula({ id: 'low-viscosity' });
  const labelS = median(Array.from({ length: ROUNDS }, () => seconds(() => familyOf(formula))));
  const family = familyOf(formula);
  const mold: Mold = { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 250, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false };
  const room: Room = { temperatureC: 23, profile: [{ fromMin: 30 * 60, temperatureC: 19 }, { fromMin: 42 * 60, temperatureC: 25 }] };
  const pours = Array.from({ length: POURS }, (_, i): BuildPour => ({ fromMin: i * 13 * 60, depthMm: 20, formula, family }));
  const allS = median(Array.from({ length: ROUNDS }, () => seconds(() => judgeBuild({ mold, room, pours }))));
  const meanS = median(Array.from({ length: ROUNDS }, () => seconds(() => judgeBuild({ mold, room, pours }, { members: 'mean' }))));
  let flawed = 0;
  for (let seed = 1; seed <= LABELS; seed++) if (labelFlaw(seed) !== null) flawed++;
  return [
    { name: `heat: ${family.members.length} members through ${POURS} pours, all verdicts, one core (baseline: the ${FAMILY_ALLOWED_S} s allowed; ratio at most 1)`, ours: allS, baseline: FAMILY_ALLOWED_S, ratio: allS / FAMILY_ALLOWED_S, aim: 1, unit: 's' },
    { name: `heat: the middle member through ${POURS} pours, all verdicts (baseline: the ${MEAN_ALLOWED_MS} ms allowed; ratio at most 1)`, ours: meanS * 1000, baseline: MEAN_ALLOWED_MS, ratio: (meanS * 1000) / MEAN_ALLOWED_MS, aim: 1, unit: 'ms' },
    { name: 'heat: the middle member against all members, the same pours (ratio at most a tenth)', ours: meanS, baseline: allS, ratio: meanS / allS, aim: 0.1, unit: 's' },
    { name: `heat: the family of one label (baseline: the ${LABEL_ALLOWED_S} s allowed; ratio at most 1)`, ours: labelS, baseline: LABEL_ALLOWED_S, ratio: labelS / LABEL_ALLOWED_S, aim: 1, unit: 's' },
    { name: `heat: of ${LABELS} random labels and builds, those with a verdict looser than the label or hot in its own situation (ratio: none)`, ours: flawed, baseline: LABELS, ratio: flawed / LABELS, aim: 0, unit: 'labels' },
  ];
}

/** Of this process's own time: others on the machine don't count. */
function seconds(work: () => unknown): number {
  const from = process.cpuUsage();
  work();
  return process.cpuUsage(from).user / 1e6;
}

function median(values: number[]): number {
  return values.sort((a, b) => a - b)[Math.floor(values.length / 2)];
}
