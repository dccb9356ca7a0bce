/** Case 12 of cases.md: dye by Beer–Lambert from a swatch, evenly and deepening, and what a coarse scale asks for. */
import { planOf, scene, TL } from '../plan/planning.ts';
import { printed, type EvidenceRow } from './evidence-row.ts';

const SOURCE = 'cases.md 12, hand arithmetic on Beer–Lambert';
/** The acceptance tolerance, ±0.5 %, where the last printed digit does not say it closer. */
const SHARE = 0.005;
const near = (what: string, text: string, got: () => number): EvidenceRow => {
  const { expected, tolerance } = printed(text);
  return { subject: `case 12: ${what}`, source: SOURCE, expected, tolerance: Math.min(tolerance, SHARE * expected), got };
};

/** Four layers of 10 mm, 261.6 g each. */
const four = (how: string) => planOf(scene({
  fillMm: 40, formulas: [{ ...TL, maxDepthMm: 10 }], bench: { holdUpMl: 0, allowanceFraction: 0 },
  fills: [{ toMm: 40, formula: 'TL', tint: { swatch: { percent: 0.1, mm: 10, passes: 0.9 }, target: { passes: 0.5, how } } }],
}));
const dye = (how: string, fromTop: number): number => four(how).pours[3 - fromTop].batches[0].tintG;

export const rows: readonly EvidenceRow[] = [
  near('a layer, g', '261.6', () => four('even').pours[0].mixG),
  near('even: percent of dye', '0.164', () => four('even').pours[0].tint!.percent),
  near('even: dye of a layer, g', '0.43', () => dye('even', 2)),
  ...['0.115', '0.229', '0.459', '0.918'].map((text, i) => near(`doubling downward: dye of layer ${i + 1} from the top, g`, text, () => dye('deepening', i))),
  { subject: 'case 12: on a scale of 0.1 g', source: 'cases.md 12', expected: 'scale-coarse', tolerance: 0, got: () => four('even').findings.find(({ subject }) => subject === 'tint')?.code ?? 'nothing' },
  { subject: 'case 12: premixes of the four layers, parts A to one of dye', source: 'cases.md 12', expected: '10 10 10 10', tolerance: 0, got: () => four('deepening').pours.map(({ batches: [batch] }) => batch.premix?.partsA).join(' ') },
];
