/** Findings about the formulas in use: ratios that contradict themselves, values that no label gave. */
import { CLASS_FIELDS, RESIN_CLASSES, type ClassField } from '../resin/classes.ts';
import { ratioConflict, ratioUnconfirmed } from '../resin/formula.ts';
import type { Formula } from '../scene/scene.ts';
import { listed, percent, plain } from '../units/format.ts';
import type { Planned } from './context.ts';
import type { Finding } from './plan.ts';

export function formulaFindings(planned: Planned): Finding[] {
  const used = [...new Set(planned.layers.map((layer) => layer.formula))];
  return used.flatMap((id) => {
    const formula = planned.scene.formulas.get(id)!;
    const pours = planned.pours.filter((pour) => pour.formula === id).map((pour) => pour.index);
    return findingsOfFormula(formula, pours);
  });
}

/** What is wrong or only typical of a formula’s label, for the pours it is used in. */
export function findingsOfFormula(formula: Formula, pours: number[]): Finding[] {
  return [...conflict(formula, pours), ...unconfirmed(formula, pours), ...typical(formula)];
}

function conflict(formula: Formula, pours: number[]): Finding[] {
  const off = ratioConflict(formula);
  if (off === null) return [];
  const [aV, bV] = formula.ratioByVolume!;
  const [aM, bM] = formula.ratioByMass!;
  const byVolume = 100 * (bV / aV) * (formula.densityBGPerMl / formula.densityAGPerMl);
  return [
    {
      code: 'ratio-conflict',
      severity: 'halt',
      subject: `formula ${formula.id}`,
      message: `${formula.name}: ${plain(aM, 2)}:${plain(bM, 2)} by weight is ${percent(Math.abs(off))} ${off > 0 ? 'more' : 'less'} hardener than ${plain(aV, 2)}:${plain(bV, 2)} by volume, which weighs 100:${plain(byVolume, 2)}.`,
      remedy: 'Read the label again: which of the two ratios does it print, and which densities? Enter only what it says.',
      pours,
    },
  ];
}

function unconfirmed(formula: Formula, pours: number[]): Finding[] {
  if (!ratioUnconfirmed(formula)) return [];
  const [a, b] = formula.ratioByMass!;
  return [
    {
      code: 'ratio-unconfirmed',
      severity: 'caution',
      subject: `formula ${formula.id}`,
      message: `${formula.name}: ${a}:${b} by weight looks like a ratio by volume.`,
      remedy: 'Check the label. If it means volume, enter it as by volume; if it gives both, enter both.',
      pours,
    },
  ];
}

function typical(formula: Formula): Finding[] {
  const values = RESIN_CLASSES[formula.family].values;
  const onePart = formula.family === 'uv';
  const words = formula.typical
    .filter((field) => !(onePart && field === 'densityBGPerMl'))
    .map((field) => {
      if (field === 'ratioByVolume') return `ratio ${formula.ratioByVolume!.join(':')} by volume`;
      if (field === 'shrinkageFraction') return `shrinkage ${percent(values[field].typical, 2)} by volume`;
      const { words: what, unit } = CLASS_FIELDS[field as ClassField];
      return `${what} ${plain(values[field as ClassField].typical, 3)}${unit && `\u00a0${unit}`}`;
    });
  if (words.length === 0) return [];
  return [
    {
      code: 'typical-value',
      severity: 'note',
      subject: `formula ${formula.id}`,
      message: `${formula.name} runs on typical values where no label value is entered: ${listed(words)}.`,
      remedy: 'Type what the label of your resin says; it wins.',
    },
  ];
}
