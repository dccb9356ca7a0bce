/** Findings about heat: pours too deep for where they are poured or near to it, what can't bear their warmth, labels that contradict themselves. */
import { CUP_HOT_C } from '../cure/family-types.ts';
import { roomAt } from '../cure/equivalent-time.ts';
import { materialWords } from '../resin/material-words.ts';
import type { Fix, FixKind } from '../cure/verdict-types.ts';
import type { MoldMaterial, SolidPlacement } from '../scene/scene.ts';
import { counted, grams, mm, plain } from '../units/format.ts';
import { parseLocalTime } from '../units/time.ts';
import { poursWithin, type Planned, type PlannedPour } from './context.ts';
import { isHot, isNear } from './hot.ts';
import type { Stuck } from './heat-rounds.ts';
import { causeWords, roomLimit, safeDepth, warmth } from './heat-words.ts';
import { usableMinutes } from './mix.ts';
import type { Finding } from './plan.ts';
import { poursNamed } from './pours-named.ts';

export function heatFindings(planned: Planned): Finding[] {
  if (!planned.heat) return [];
  return [...hotPours(planned), ...hotCups(planned), ...warmingCups(planned), ...nearPours(planned), ...softFigures(planned), ...softMold(planned), ...labels(planned)];
}

function hotPours({ scene, pours }: Planned): Finding[] {
  return pours.filter(({ heat, depthMm }) => heat && isHot(heat, depthMm)).map((pour) => {
    const heat = pour.heat!;
    return {
      code: 'hot',
      severity: 'halt' as const,
      subject: `pour ${pour.index}`,
      message: `Pour ${pour.index} is ${mm(pour.depthMm, 2)} deep, and ${heat.safeDepthMm < LEAST_TOLD_MM ? 'no depth' : `only ${safeDepth(heat)}`} is safe there: ${causeWords(heat.cause, scene.mold)}. It could run away with its own heat.`,
      // It was split as thin as it can be.
      remedy: remedyOf(STUCK_WORDS[pour.stuck ?? 'thinner would not do'], heat.fixes.filter(({ kind }) => kind !== 'split')),
      pours: [pour.index],
    };
  });
}

/** Under this a safe depth is none, mm. */
const LEAST_TOLD_MM = 0.1;

const STUCK_WORDS: Readonly<Record<Stuck, string>> = {
  'thinner would not do': 'Thinner pours would no longer level.',
  'a lock would be lost': 'Thinner pours would no longer hold down what floats there.',
};

function nearPours({ scene, pours }: Planned): Finding[] {
  return pours.filter(({ heat, depthMm }) => heat && isNear(heat, depthMm)).map((pour) => {
    const heat = pour.heat!;
    return {
      code: 'near-runaway',
      severity: 'caution' as const,
      subject: `pour ${pour.index}`,
      message: `Pour ${pour.index} is ${mm(pour.depthMm, 2)} deep, close to the ${safeDepth(heat)} that are safe there: ${causeWords(heat.cause, scene.mold)}. ${roomLimit(heat)}`,
      remedy: remedyOf(heat.fixes.some(({ kind }) => kind === 'cool') ? '' : 'Keep the room from warming until it has set.', heat.fixes),
      pours: [pour.index],
    };
  });
}

/** So many times the cups are worth the bother; rooms that are asked for, °C: no resin cures well in a colder one (common practice, no source). */
const MOST_TIMES_CUPS = 3;
const LEAST_ROOM_C = 15;

/** One for each formula: what helps one of its cups helps them all. */
function hotCups(planned: Planned): Finding[] {
  return byFormula(planned.pours.filter(({ batches }) => batches[0].heat?.hot)).map((pours) => {
    const { mostG, roomC, words } = coolerCup(planned, pours);
    const measured = planned.heat!.familyOf(pours[0].formulaUsed).hotCups.find(({ massG }) => pours.some(({ batches }) => batches[0].mixG >= massG));
    const cups = cupsOf(pours);
    const message = measured
      ? `A test cup of ${grams(measured.massG)} passed ${plain(CUP_HOT_C)}\u00a0°C after ${plain(Math.floor(measured.afterMin), 0)}\u00a0min, while its label still had it poured. ${cups.words}, as large or larger, can do so too.`
      : `${cups.words} may pass ${plain(CUP_HOT_C)}\u00a0°C after ${plain(Math.floor(cups.passesMin), 0)}\u00a0min: too much in one cup here.`;
    return { code: 'cup-hot', severity: 'halt', subject: `pour ${pours[0].index}`, message, remedy: words, cooler: { mostG, roomC }, pours: pours.map(({ index }) => index) };
  });
}

/** Cups that are not too much, as long as nobody lingers. */
function warmingCups({ pours }: Planned): Finding[] {
  return byFormula(pours.filter(({ batches: [{ heat }] }) => heat && !heat.hot && heat.passesMin !== null)).map((warming) => {
    const cups = cupsOf(warming);
    return {
      code: 'cup-warms',
      severity: 'note' as const,
      subject: `pour ${warming[0].index}`,
      message: `${cups.words} may pass ${plain(CUP_HOT_C)}\u00a0°C after ${plain(Math.floor(cups.passesMin), 0)}\u00a0min, before the pour is done.`,
      remedy: 'Pour each cup out by then, and spread what is left of it thin.',
      pours: warming.map(({ index }) => index),
    };
  });
}

function byFormula(pours: readonly PlannedPour[]): PlannedPour[][] {
  const ids = [...new Set(pours.map(({ formulaUsed }) => formulaUsed.id))];
  return ids.map((id) => pours.filter(({ formulaUsed }) => formulaUsed.id === id));
}

/** `A cup of 335.2 g for pour 1`, or of several pours the largest; and when the first of them is too hot. */
function cupsOf(pours: readonly PlannedPour[]): { readonly words: string; readonly passesMin: number } {
  const passesMin = Math.min(...pours.map(({ batches: [{ heat }] }) => heat!.passesMin ?? Infinity));
  const largest = grams(largestG(pours));
  return { words: `${pours.length === 1 ? `A cup of ${largest}` : `Cups of up to ${largest}`} for ${poursNamed(pours)}`, passesMin };
}

function largestG(pours: readonly PlannedPour[]): number {
  return Math.max(...pours.map(({ batches: [{ mixG }] }) => mixG));
}

/** The fewest equal cups that stay cool in the warmest room of these pours, or the warmest room that their largest cup stays cool in; both are judged again. */
function coolerCup({ scene, heat }: Planned, pours: readonly PlannedPour[]): { readonly words: string; readonly mostG?: number; readonly roomC?: number } {
  const roomOf = ({ starts }: PlannedPour) => roomAt(scene.room, parseLocalTime(starts)!);
  const roomC = Math.max(...pours.map(roomOf));
  const [{ formulaUsed: formula, batches, mixMl, mixG }] = pours.filter((pour) => roomOf(pour) === roomC).sort((a, b) => b.batches[0].mixG - a.batches[0].mixG);
  const mixC = Math.max(roomC, scene.bench.bottlesC ?? -Infinity);
  const hot = (batchG: number, airC: number, mixedC: number) => heat!.cup(formula, { batchG, roomC: airC, mixC: mixedC > airC ? mixedC : undefined, usableMin: usableMinutes(formula, batchG, mixedC) }).hot;
  const neededMl = mixMl - batches.length * scene.bench.holdUpMl;
  const ways: string[] = [];
  let mostG: number | undefined;
  for (let cups = batches.length + 1; cups <= MOST_TIMES_CUPS * batches.length; cups++) {
    const eachG = (neededMl / cups + scene.bench.holdUpMl) * (mixG / mixMl);
    if (hot(eachG, roomC, mixC)) continue;
    mostG = Math.ceil(eachG);
    ways.push(`Mix it in ${counted(cups, 'cup')} of ${grams(eachG)}, one after the other: set the most in one cup to ${plain(mostG, 0)}\u00a0g.`);
    break;
  }
  const biggestG = largestG(pours);
  const coolC = Array.from({ length: 60 }, (_, i) => Math.ceil(mixC) - 1 - i).find((cooler) => cooler >= LEAST_ROOM_C && !hot(biggestG, Math.min(roomC, cooler), cooler));
  const coolsRoom = coolC !== undefined && coolC < roomC;
  if (coolC !== undefined) ways.push(coolsRoom ? `Cool the room and the bottles to ${plain(coolC)}\u00a0°C.` : `Warm the bottles to no more than ${plain(coolC)}\u00a0°C.`);
  return { words: ways.length > 0 ? either(ways) : 'Choose a slower resin, or pour thinner, from smaller cups.', mostG, roomC: coolsRoom ? coolC : undefined };
}

/** What to read before the eyes tire; the plan lists every fix. */
const MOST_FIXES = 2;
/** What an artist will try first comes first. */
const FIX_ORDER: readonly FixKind[] = ['cool', 'wait', 'split', 'formula'];

/** What helps, with what it comes to then; without any, only the first sentence. */
function remedyOf(first: string, fixes: readonly Fix[]): string {
  const told = [...fixes].sort((a, b) => FIX_ORDER.indexOf(a.kind) - FIX_ORDER.indexOf(b.kind)).slice(0, MOST_FIXES);
  return [first, either(told.map(fixWords))].filter(Boolean).join(' ');
}

/** One way, or the other. */
function either([first = '', ...others]: readonly string[]): string {
  return [first, ...others.map((other) => `Or ${other[0].toLowerCase()}${other.slice(1)}`)].filter(Boolean).join(' ');
}

function fixWords({ kind, words, after }: Fix): string {
  const then = kind === 'split' ? `each gets ${warmth(after.rangeC)}` : `${safeDepth(after)} are safe, and it gets ${warmth(after.rangeC)}`;
  return `${words} Then ${then}.`;
}

/** The hottest that objects of a material may get where none is said, °C: prints soften (trade: published for PLA and PETG). */
const TYPICAL_LIMIT_C: Readonly<Record<string, number>> = { pla: 50, petg: 75 };

/** Limits are held against the cautious end of the range. */
function softFigures(planned: Planned): Finding[] {
  return planned.solids.flatMap(({ placement, solid }): Finding[] => {
    const limitC = limitOf(placement);
    if (limitC === undefined || !solid) return [];
    const around = poursWithin(planned, solid.bounds.min[2], solid.bounds.max[2]).map((index) => planned.pours[index - 1]);
    const warm = around.filter(({ heat }) => heat && heat.rangeC[1] > limitC);
    if (warm.length === 0) return [];
    const typical = placement.limitC === undefined ? `, as ${materialWords(placement.material!)} typically does` : '';
    return [
      {
        code: 'figure-too-warm',
        severity: 'caution',
        subject: placement.id,
        message: `${placement.name} stands ${plain(limitC)}\u00a0°C${typical}; ${poursNamed(warm)} may reach ${warmth(hottest(warm))} around it.`,
        remedy: 'Pour thinner there, cool the room, or choose a slower resin for that fill.',
        pours: warm.map(({ index }) => index),
      },
    ];
  });
}

/** The hottest that an object may get, °C; undefined where nothing is said or known. */
export function limitOf({ limitC, material }: SolidPlacement): number | undefined {
  return limitC ?? (material !== undefined && Object.hasOwn(TYPICAL_LIMIT_C, material) ? TYPICAL_LIMIT_C[material] : undefined);
}

/** From where on a mold softens, °C (common practice, no source); silicone, glass and wood bear what a pour may. */
export const MOLD_LIMIT_C: Partial<Readonly<Record<MoldMaterial, number>>> = { hdpe: 80, acrylic: 75, foam: 70 };

function softMold({ scene: { mold }, pours }: Planned): Finding[] {
  const limitC = MOLD_LIMIT_C[mold.material];
  const warm = limitC === undefined ? [] : pours.filter(({ heat }) => heat && heat.rangeC[1] > limitC);
  if (warm.length === 0) return [];
  const material = mold.material === 'hdpe' ? 'polyethylene' : mold.material;
  return [
    {
      code: 'mold-too-warm',
      severity: 'caution',
      subject: 'mold',
      message: `The ${material} of the mold softens near ${plain(limitC!)}\u00a0°C; ${poursNamed(warm)} may reach ${warmth(hottest(warm))}.`,
      remedy: 'Pour thinner, cool the room, or use a mold of silicone.',
      pours: warm.map(({ index }) => index),
    },
  ];
}

function hottest(pours: readonly PlannedPour[]): readonly [number, number] {
  return pours.map(({ heat }) => heat!.rangeC).reduce((a, b) => (b[1] > a[1] ? b : a));
}

/** Label values that its greatest depth does not bear out, and what test cups told. */
function labels({ scene, layers, heat }: Planned): Finding[] {
  return [...new Set(layers.map(({ formula }) => formula))].flatMap((id): Finding[] => {
    const formula = scene.formulas.get(id)!;
    const { contradictions, narrowedBy } = heat!.familyOf(formula);
    // What a class is typically like contradicts no label.
    const told = contradictions.filter(({ field }) => field === 'testCup' || !formula.typical.includes(field));
    const notes = told.map(({ field, words, factor }): Finding => ({
      code: 'label-contradiction',
      severity: 'note',
      subject: `formula ${id}`,
      message: `${formula.name}: ${words}`,
      remedy: [factor === 1 ? '' : `They are apart by a factor of ${plain(Math.max(factor, 1 / factor))}.`, field === 'testCup' ? 'The stricter one counts.' : narrowedBy ? 'The plan keeps to both.' : 'The plan keeps to both; a test cup tells more.'].filter(Boolean).join(' '),
    }));
    if (!narrowedBy) return notes;
    return [...notes, { code: 'test-cup', severity: 'note', subject: `formula ${id}`, message: `${formula.name}: ${narrowedBy.words}`, remedy: 'Measure more cups, warmer and larger ones too, to know more. None allows more depth than the label.' }];
  });
}
