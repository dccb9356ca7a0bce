/** The planner's cost case: 2,400 mL in eight cups, two kits, nine hours, a margin. Hand arithmetic. */
import { planOf, scene, TL } from '../plan/planning.ts';
import { printed, type EvidenceRow } from './evidence-row.ts';

const SOURCE = 'the planner’s cost case, hand arithmetic';
const near = (subject: string, text: string, got: () => number): EvidenceRow => ({ subject: `cost case: ${subject}`, source: SOURCE, ...printed(text), got });

/** Eight pours of 300 mL net, each in one cup. */
const eight = () => planOf({
  ...scene({ mold: { lengthMm: 200, widthMm: 150, heightMm: 90 }, fillMm: 80, formulas: [{ ...TL, maxDepthMm: 10, price: { kitMl: 1500, amount: 48, currency: 'USD' } }] }),
  labor: { perHour: 25, hours: 9, consumables: 14, marginFraction: 0.35 },
});

export const rows: readonly EvidenceRow[] = [
  near('2,400 mL net in eight cups, 8 mL of hold-up each, 5 % spare: mixed, mL', '2584', () => eight().shopping[0].mixMl),
  near('resin used up, at 32 a liter', '82.69', () => eight().cost!.resin!.consumed),
  near('resin bought, two kits of 1.5 L at 48', '96', () => eight().cost!.resin!.bought),
  near('with 14 of consumables and nine hours at 25', '321.69', () => eight().cost!.total!),
  near('asked for, with a margin of 35 %', '494.91', () => eight().cost!.quote!),
];
