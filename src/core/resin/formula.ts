/** A formula's arithmetic: what its ratio means in volume and mass, and how dense the mix is. */
import type { Family, Formula } from '../scene/scene.ts';
import { BUILT_IN, CLASS_FIELDS, RESIN_CLASSES, type ClassField } from './classes.ts';

/** Hardener by mass over hardener by the volume ratio may differ by this much before it is a conflict. */
const CONFLICT_FRACTION = 0.03;
/** Two whole numbers up to this look like a volume ratio read off a label. */
const LABEL_WHOLE_MAX = 10;

export interface Mix {
  /** Part B over part A by volume; 0 for a one-part formula. */
  readonly bPerAByVolume: number;
  readonly bPerAByMass: number;
  /** Mixed density, g/mL: (a·ρA + b·ρB)/(a + b) by volume. */
  readonly densityGPerMl: number;
}

/** What the ratio comes to. With both given the one by mass wins. */
export function mixOf(formula: Formula): Mix {
  const { densityAGPerMl: rhoA, densityBGPerMl: rhoB } = formula;
  if (formula.ratioByMass) {
    const byMass = formula.ratioByMass[1] / formula.ratioByMass[0];
    return mixFrom((byMass * rhoA) / rhoB, rhoA, rhoB);
  }
  const byVolume = formula.ratioByVolume ? formula.ratioByVolume[1] / formula.ratioByVolume[0] : 0;
  return mixFrom(byVolume, rhoA, rhoB);
}

/** How far the hardener by mass is from the one by volume, as a signed fraction; null unless both are given. */
export function ratioConflict(formula: Formula): number | null {
  const { ratioByMass, ratioByVolume, densityAGPerMl, densityBGPerMl } = formula;
  if (!ratioByMass || !ratioByVolume) return null;
  const byMass = ratioByMass[1] / ratioByMass[0];
  const byVolume = (ratioByVolume[1] / ratioByVolume[0]) * (densityBGPerMl / densityAGPerMl);
  const off = byMass / byVolume - 1;
  return Math.abs(off) > CONFLICT_FRACTION ? off : null;
}

/** A ratio by mass that looks as if the label had meant volume. */
export function ratioUnconfirmed(formula: Formula): boolean {
  if (!formula.ratioByMass || formula.ratioByVolume) return false;
  return formula.ratioByMass.every((part) => Number.isInteger(part) && part <= LABEL_WHOLE_MAX);
}

/** What a person typed of a formula; the rest is the class's. */
export type LabelValues = { readonly id: string; readonly name?: string; readonly family?: Family } & Partial<Omit<Formula, 'id' | 'name' | 'family' | 'typical'>>;

/** Fills in from the class what the label does not give, and says which values those are. */
export function completeFormula(label: LabelValues): Formula {
  const family = label.family ?? (isBuiltIn(label.id) ? label.id : 'general');
  const resinClass = RESIN_CLASSES[family];
  const typical: string[] = [];
  const values = {} as Record<ClassField, number>;
  for (const field of Object.keys(CLASS_FIELDS) as ClassField[]) {
    const given = label[field];
    if (given === undefined) typical.push(field);
    values[field] = given ?? resinClass.values[field].typical;
  }
  const noRatio = !label.ratioByVolume && !label.ratioByMass;
  if (noRatio && resinClass.ratioByVolume) typical.unshift('ratioByVolume');
  const ratioByVolume = noRatio ? resinClass.ratioByVolume : label.ratioByVolume;
  return { ...values, id: label.id, name: label.name ?? nameFor(label.id, family, typical.length), family, ratioByVolume, ratioByMass: label.ratioByMass, price: label.price, typical };
}

/** What a formula without a name is called: the class it is, or its id. */
function nameFor(id: string, family: Family, typicalValues: number): string {
  if (!isBuiltIn(id)) return id;
  const { name } = RESIN_CLASSES[family];
  const allTypical = typicalValues === Object.keys(CLASS_FIELDS).length + 1;
  return allTypical ? name : name.replace(' (typical)', '');
}

/** Whether an id is the name of a class that is a formula of its own. */
export function isBuiltIn(id: string): id is Family {
  return (BUILT_IN as readonly string[]).includes(id);
}

function mixFrom(bPerAByVolume: number, rhoA: number, rhoB: number): Mix {
  return {
    bPerAByVolume,
    bPerAByMass: (bPerAByVolume * rhoB) / rhoA,
    densityGPerMl: (rhoA + bPerAByVolume * rhoB) / (1 + bPerAByVolume),
  };
}
