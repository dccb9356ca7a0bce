/** Case 10 of cases.md: eight rounds at once, from two cups; and two pieces from one. Hand arithmetic. */
import { planTogether } from '../../src/core/plan/runs/together.ts';
import { readScene } from '../../src/core/scene/read.ts';
import { NO_BOOLEANS, planOf, scene } from '../plan/planning.ts';
import { printed, type EvidenceRow } from './evidence-row.ts';

const SOURCE = 'cases.md 10, hand arithmetic';
const near = (what: string, text: string, got: () => number): EvidenceRow => ({ subject: `case 10: ${what}`, source: SOURCE, ...printed(text), got });
const exact = (what: string, expected: number, got: () => number): EvidenceRow => ({ subject: `case 10: ${what}`, source: SOURCE, expected, tolerance: 0, got });
const eight = () => planOf({ ...scene({ mold: { shape: 'round', diameterMm: 100, heightMm: 20 }, fillMm: 8, fills: [{ toMm: 8, formula: 'TG' }] }), copies: 8 }).pours[0];

/** Case 1's box twice, from shared cups: 2 × 144 mL net, 5 % spare, 8 mL in the one cup. */
const boxes = () => {
  const box = (name: string) => {
    const reading = readScene({ ...scene({ fillMm: 6 }), name });
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    return { scene: reading.scene, given: { meshes: new Map(), booleans: NO_BOOLEANS, heat: null } };
  };
  const result = planTogether([box('One'), box('Two')]);
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.together;
};

export const rows: readonly EvidenceRow[] = [
  near('mixed for eight rounds of 100 × 8 mm, g', '587.3', () => eight().mixG),
  exact('cups: one is over 400 g', 2, () => eight().batches.length),
  near('a cup, g', '293.6', () => eight().batches[0].mixG),
  near('part A of a cup, g', '157.7', () => eight().batches[0].partA.g),
  near('part B of a cup, g', '135.9', () => eight().batches[0].partB.g),
  exact('molds from a cup', 4, () => eight().batches[0].molds),
  near('net of a piece, g', '67.9', () => eight().netMl * 1.08),
  exact('work for a cup, minutes', 16, () => eight().batches[0].workMin!),
  near('usable, minutes', '19.6', () => eight().batches[0].usableMin),
  { subject: 'two boxes of case 1 from one cup, mL', source: 'cases.md 1, hand arithmetic: 2 × 144 × 1.05 + 8', expected: 310.4, tolerance: 1e-9, got: () => boxes().poured[0].mixMl },
  { subject: 'two boxes of case 1: pours at the bench', source: 'one formula, one visit: one', expected: 1, tolerance: 0, got: () => boxes().pours },
];
