/** Whole stacks, pour on pour: against an independent stiff solver's, the balance of heat, and the order of the grid. */
import { readCase, type CureCase } from '../../src/core/cure/case.ts';
import { solveCase, type CaseSolution } from '../../src/core/cure/solve-case.ts';
import type { EvidenceRow } from './evidence-row.ts';
import stacks from './heat-stacks.json' with { type: 'json' };

const STACKS_SOURCE = 'an independent stiff solver on three grids, extrapolated: peaks good to 0.005 K, gel times to 0.3 s, peak times to 20 s (heat-stacks.json)';

interface StackCase {
  readonly name: string;
  readonly case: CureCase;
  readonly expect: { readonly pours: readonly { midPeakC: number; midPeakAtS: number; midGelS: number }[] };
}

/** The stored stacks, each through the reader that the command uses. */
const STACKS: readonly StackCase[] = stacks.cases.map(({ name, case: document, expect }) => {
  const reading = readCase(document);
  if (!reading.ok) throw new Error(`${name}: ${JSON.stringify(reading.problems)}`);
  return { name, case: reading.case, expect };
});

const solutions = new Map<string, CaseSolution>();
function solutionOf({ name, case: cureCase }: StackCase): CaseSolution {
  const solution = solutions.get(name) ?? solveCase(cureCase);
  solutions.set(name, solution);
  return solution;
}

/** Asked for: 0.2 K and 0.5 % of the gel time; what the solver keeps to is told instead. */
function stackRows(stack: StackCase): EvidenceRow[] {
  const source = STACKS_SOURCE;
  return [
    ...stack.expect.pours.flatMap(({ midPeakC, midPeakAtS, midGelS }, k): EvidenceRow[] => [
      { subject: `${stack.name}, pour ${k + 1}: hottest in its middle, °C`, source, expected: midPeakC, tolerance: 0.05, got: () => solutionOf(stack).pours[k].midPeakC },
      { subject: `${stack.name}, pour ${k + 1}: seconds to that`, source, expected: midPeakAtS, tolerance: 30, got: () => solutionOf(stack).pours[k].midPeakAtS },
      { subject: `${stack.name}, pour ${k + 1}: seconds to gel in its middle`, source, expected: midGelS, tolerance: 5e-4 * midGelS, got: () => solutionOf(stack).pours[k].midGelS ?? NaN },
    ]),
    { subject: `${stack.name}: unaccounted share of the heat released`, source: 'first law: 0; it proves closing, not accuracy', expected: 0, tolerance: 1e-3, got: () => solutionOf(stack).energyBalance },
  ];
}

/** Order p of e ~ cellᵖ from three grids, each three times finer: an odd number of cells keeps the middle where it is. */
function gridOrder(stack: Pick<StackCase, 'case'>, peakOf: (solution: CaseSolution) => number): number {
  const exactSteps = { temperatureToleranceK: 2e-5, conversionTolerance: 1e-6, firstStepS: 1 };
  const [coarse, middle, fine] = [3, 1, 1 / 3].map((cellMm) => peakOf(solveCase(stack.case, { ...exactSteps, cellMm, leastCells: 3 })));
  return Math.log((coarse - middle) / (middle - fine)) / Math.log(3);
}

const ORDER_SOURCE = 'central differences between cells: 2 in theory, at least 1.7 asked for';
/** From 1.7; over 2.6 the coarse grid would be too coarse to tell. */
const ORDER = { expected: 'about 2', tolerance: 0 };
const orderWords = (order: number): string => (order >= 1.7 && order <= 2.6 ? 'about 2' : String(order));
const mild = { name: '15 mm, mild', case: { ...STACKS[0].case, pours: [{ depthMm: 15, atH: 0 }] } };
const hot = { name: '27 mm, running away', case: { ...STACKS[1].case, pours: [{ depthMm: 27, atH: 0 }] } };

export const rows: readonly EvidenceRow[] = [
  ...STACKS.flatMap(stackRows),
  ...[mild, hot].map((stack): EvidenceRow => ({
    subject: `order of the grid, from hottest middles on cells of 3, 1 and ⅓ mm: ${stack.name}`, source: ORDER_SOURCE,
    ...ORDER, got: () => orderWords(gridOrder(stack, ({ pours }) => pours[0].midPeakC)),
  })),
];
