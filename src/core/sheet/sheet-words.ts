/**
 * Lengths and volumes on the sheet, and the plan's sentences, in the units the person chose. In inches the mm stand
 * beside what is worked by; a mark is never shown higher than it is, nor nearer to the rim.
 */
import type { Plan } from '../plan/plan.ts';
import type { Scene } from '../scene/scene.ts';
import { mm as inMm, ml as inMl, plain, tenthBelow } from '../units/format.ts';
import { fluidOunces, inches } from '../units/imperial.ts';
import type { ChosenUnits } from '../units/in-units.ts';
import { atLeastIn, atMostIn, inUnits, lengthIn, lengthNumber, limitIn, sizesIn } from '../units/in-units.ts';

export const METRIC: ChosenUnits = { length: 'mm', volume: 'mL' };

const NBSP = '\u00a0';

export interface SheetWords {
  readonly units: ChosenUnits;
  /** Head of a column or a blank: `mm`, `in`. */
  readonly unit: 'mm' | 'in';
  /** `20 mm`; `13⁄16 in`. */
  length(mm: number): string;
  /** Where mm go without saying: `20`; `13⁄16 in`. */
  bare(mm: number): string;
  /** `12.5 to 20 mm`; `1⁄2 to 13⁄16 in`. */
  span(fromMm: number, toMm: number): string;
  /** `200 × 120 × 60 mm`; in inches each with its unit. */
  sizes(mm: readonly number[]): string;
  /** Behind a length in inches: ` (20 mm)`; nothing in mm. */
  beside(mm: number): string;
  /** Without a unit: `20`; `13⁄16`. */
  number(mm: number, digits?: number): string;
  /** A fill mark over the floor, without `mm`. */
  mark(mm: number): string;
  /** The same from the rim, without `mm`. */
  fromRim(mm: number): string;
  /** What must not be exceeded, with its unit; in inches the mm beside. */
  limit(mm: number): string;
  /** `159 mL`; `5.4 fl oz (159 mL)`. */
  volume(ml: number): string;
  /** With the other unit in both: `159 mL (5.4 fl oz)`. */
  bothVolumes(ml: number): string;
  /** A sentence that was written in mm and mL. */
  said(text: string): string;
}

export function sheetWords(scene: Scene, units: ChosenUnits): SheetWords {
  const inInches = units.length === 'in';
  const inOunces = units.volume === 'floz';
  const keep = namesIn(scene);
  const beside = (mm: number): string => (inInches ? ` (${inMm(mm)})` : '');
  const bare = (mm: number): string => (inInches ? inches(mm) : plain(mm));
  return {
    units,
    unit: units.length,
    length: (mm) => lengthIn(mm, units.length),
    bare,
    number: (mm, digits) => lengthNumber(mm, units.length, digits),
    span: (fromMm, toMm) => `${lengthNumber(fromMm, units.length)} to ${lengthIn(toMm, units.length)}`,
    sizes: (mm) => sizesIn(mm, units.length),
    beside,
    mark: (mm) => (inInches ? atMostIn(mm, 'in') : plain(mm)),
    fromRim: (mm) => (inInches ? atLeastIn(mm, 'in') : plain(mm)),
    limit: (mm) => (inInches ? `${limitIn(mm, 'in')}${beside(tenthBelow(mm))}` : limitIn(mm, 'mm')),
    volume: (ml) => (inOunces ? `${fluidOunces(ml)} (${inMl(ml)})` : inMl(ml)),
    bothVolumes: (ml) => (inOunces ? `${fluidOunces(ml)} (${plain(ml)}${NBSP}mL)` : `${plain(ml)}${NBSP}mL (${fluidOunces(ml)})`),
    said: (text) => inUnits(text, units, { keep, plan: true }),
  };
}

/** The plan with its sentences in the chosen units; numbers stay in mm and mL. */
export function planInUnits(plan: Plan, { said }: SheetWords): Plan {
  return {
    ...plan,
    pours: plan.pours.map((pour) => ({
      ...pour,
      why: said(pour.why),
      ...(pour.heat && { heat: { ...pour.heat, softens: { ...pour.heat.softens, words: said(pour.heat.softens.words) }, bubbles: { ...pour.heat.bubbles, words: said(pour.heat.bubbles.words) } } }),
    })),
    steps: plan.steps.map((step) => ({ ...step, text: said(step.text) })),
    findings: plan.findings.map((finding) => ({ ...finding, message: said(finding.message), remedy: said(finding.remedy) })),
    cautions: plan.cautions.map(said),
  };
}

/** What stays as the person wrote it, whatever it looks like. */
export function namesIn({ name, placements, creatures, formulas }: Scene): string[] {
  return [name, ...[...placements, ...creatures].map((thing) => thing.name), ...[...formulas.values()].map((formula) => formula.name)];
}
