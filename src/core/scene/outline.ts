/**
 * The scene as a nested text, from the show face down: what a screen reader reads and a keyboard edits.
 * Every item says in words what it is and where; its `edits` name what can be changed in place, by the path that
 * `setAt` (edit/set-at.ts) takes. Things are named by id, fills and stops by number.
 */
import type { Plan } from '../plan/plan.ts';
import { stopsOf } from '../plan/stops.ts';
import { counted, listed, mm, plain } from '../units/format.ts';
import { BUILT_IN, RESIN_CLASSES } from '../resin/classes.ts';
import { materialWords, moldMaterialWords } from '../resin/material-words.ts';
import { MATERIALS } from '../resin/materials.ts';
import { depthAt } from './depth.ts';
import { BENCH_FIELDS } from './edit/bench.ts';
import { labelFields } from './edit/label-fields.ts';
import { moldFields, moldValue, MOLD_MATERIALS } from './edit/mold.ts';
import { sizeFields } from './edit/shape.ts';
import { heightOf } from './edit/things.ts';
import type { Bench, Formula, Hold, Mold, Placement, Scene } from './scene.ts';

export type EditKind = 'text' | 'length' | 'angle' | 'number' | 'mass' | 'temperature' | 'hours' | 'minutes' | 'volume' | 'ratio' | 'percent' | 'color' | 'time' | 'choice' | 'yes-no';

export interface OutlineEdit {
  /** `mold.lengthMm`, `placements.f1.baseMm`, `fills.0.toMm`. */
  readonly path: string;
  readonly words: string;
  readonly kind: EditKind;
  /** The unit the value is kept in; empty where it has none. */
  readonly unit: string;
  readonly value: string | number | boolean | readonly number[] | null;
  readonly choices?: readonly OutlineChoice[];
}

export interface OutlineChoice {
  readonly value: string;
  readonly words: string;
}

export interface OutlineItem {
  /** Stays the same while the thing does. */
  readonly key: string;
  readonly words: string;
  readonly edits: readonly OutlineEdit[];
  readonly children: readonly OutlineItem[];
}

/** The outline of a scene; with its plan also how high things reach, which pour covers them, and the pours themselves. */
export function outlineOf(scene: Scene, plan: Plan | null): readonly OutlineItem[] {
  return [moldItem(scene), resinItem(scene), insideItem(scene, plan), ...(scene.creatures.length > 0 ? [creaturesItem(scene)] : []), fillsItem(scene), formulasItem(scene), benchItem(scene), ...(plan ? [poursItem(plan)] : [])];
}

function moldItem(scene: Scene): OutlineItem {
  const { mold } = scene;
  return {
    key: 'mold',
    words: `${scene.name}: ${moldWords(mold)}, looked at from ${CAST_WORDS[scene.cast]}`,
    edits: [
      edit('name', 'name of the piece', 'text', '', scene.name),
      edit('cast', 'looked at from', 'choice', '', scene.cast, choicesOf(CAST_WORDS)),
      ...moldFields(mold.shape).map(({ field, words, kind }) =>
        edit(`mold.${field}`, words, kind, kind === 'length' ? 'mm' : kind === 'angle' ? '°' : '', moldValue(mold, field) ?? null, kind === 'choice' ? MOLD_MATERIALS.map((value) => ({ value, words: moldMaterialWords(value) })) : undefined),
      ),
    ],
    children: [],
  };
}

function moldWords(mold: Mold): string {
  const size = mold.shape === 'box' ? `box ${plain(mold.lengthMm, 2)} × ${plain(mold.widthMm, 2)} × ${mm(mold.heightMm, 2)}` : `round mold ${mm(mold.diameterMm, 2)} across, ${mm(mold.heightMm, 2)} high`;
  return `${size}, ${moldMaterialWords(mold.material)}${mold.keep ? ', the piece stays in it' : ''}`;
}

function resinItem(scene: Scene): OutlineItem {
  const rim = scene.mold.heightMm - scene.fillMm;
  return { key: 'resin', words: `Resin ${mm(scene.fillMm, 2)} high, ${mm(Math.abs(rim), 2)} ${rim < 0 ? 'over' : 'under'} the rim`, edits: [edit('fillMm', 'height of the resin', 'length', 'mm', scene.fillMm)], children: [] };
}

/** Things by the height they start at, nearest the show face first. */
function insideItem(scene: Scene, plan: Plan | null): OutlineItem {
  const faceDown = scene.cast === 'face-down';
  const order = [...scene.placements].sort((a, b) => (faceDown ? heightOf(a) - heightOf(b) : heightOf(b) - heightOf(a)));
  const stops = stopsOf(scene);
  const levels = stops.slice(0, -1).map((stop) => mm(stop.atMm, 2));
  const pausing = levels.length === 0 ? 'no stops on the way' : `${counted(levels.length, 'stop')} on the way: ${listed(levels)}`;
  return {
    key: 'inside',
    words: `From the show face ${faceDown ? 'at the mold’s floor up' : 'down'}: ${order.length === 0 ? 'nothing set yet' : counted(order.length, 'thing')}, ${pausing}`,
    edits: [],
    children: order.map((placement) => thingItem(scene, placement, plan)),
  };
}

function thingItem(scene: Scene, placement: Placement, plan: Plan | null): OutlineItem {
  const path = (field: string) => `placements.${placement.id}.${field}`;
  const name = edit(path('name'), 'name', 'text', '', placement.name);
  const where = heightAndDepth(scene, heightOf(placement));
  if (placement.kind === 'plane') {
    return {
      key: placement.id,
      words: `${placement.name}, painted plane, ${where}`,
      edits: [name, edit(path('atMm'), 'height', 'length', 'mm', placement.atMm), edit(path('paintH'), 'painting', 'hours', 'h', placement.paintH), edit(path('dryH'), 'drying', 'hours', 'h', placement.dryH)],
      children: [],
    };
  }
  const result = plan?.placements.find((each) => each.id === placement.id);
  const reach = result ? `, reaching ${mm(result.topMm, 1)} up` : '';
  const lift = result?.floats ? ', lighter than the resin' : '';
  return {
    key: placement.id,
    words: `${placement.name}, ${placement.kind}, ${where}${reach}, ${HOLD_WORDS[placement.hold]}${lift}`,
    edits: [
      name,
      edit(path('baseMm'), 'height of its lowest point', 'length', 'mm', placement.baseMm),
      edit(path('xMm'), 'from the middle, to the right', 'length', 'mm', placement.xMm),
      edit(path('yMm'), 'from the middle, to the back', 'length', 'mm', placement.yMm),
      edit(path('turnZDeg'), 'turn about the upright', 'angle', '°', placement.turnDeg[2]),
      edit(path('scale'), 'size against the original', 'number', '', placement.scale),
      ...sizeFields(placement.shape).map(({ field, words, unit }) => edit(path(`shape.${field}`), words, unit === 'mL' ? 'volume' : 'length', unit, (placement.shape as unknown as Record<string, number>)[field])),
      edit(path('hold'), 'held', 'choice', '', placement.hold, choicesOf(HOLD_WORDS)),
      edit(path('massG'), 'weight', 'mass', 'g', placement.massG ?? null),
      edit(path('material'), 'made of', 'choice', '', placement.material ?? null, MATERIALS.map((value) => ({ value, words: materialWords(value) }))),
    ],
    children: [],
  };
}

/** Creatures that are painted on planes, by how many. */
function creaturesItem({ creatures, placements }: Scene): OutlineItem {
  const children = creatures.map(({ id, name, baseMm }): OutlineItem => {
    const planes = placements.filter((placement) => placement.kind === 'plane' && placement.slices?.includes(id)).length;
    return { key: `creature ${id}`, words: `${name}, painted on ${planes === 0 ? 'no plane yet' : counted(planes, 'plane')}, from ${mm(baseMm, 2)} up`, edits: [], children: [] };
  });
  return { key: 'creatures', words: `${counted(children.length, 'creature')} painted, not set in`, edits: [], children };
}

const CAST_WORDS: Readonly<Record<Scene['cast'], string>> = { 'face-up': 'the top', 'face-down': 'the floor' };
const HOLD_WORDS: Readonly<Record<Hold, string>> = { rests: 'resting', stands: 'standing', fixed: 'fastened', rod: 'on a rod', thread: 'on a thread' };

function fillsItem(scene: Scene): OutlineItem {
  const children = scene.fills.map((fill, i) => ({ fill, i })).reverse().map(({ fill, i }): OutlineItem => {
    const from = i > 0 ? scene.fills[i - 1].toMm : 0;
    const name = scene.formulas.get(fill.formula)?.name ?? fill.formula;
    const top = i === scene.fills.length - 1;
    return {
      key: `fill ${i}`,
      words: `From ${plain(from, 2)} to ${mm(fill.toMm, 2)}: ${name}${fill.tint && fill.tint.percent > 0 ? `, tinted ${plain(fill.tint.percent, 3)} %` : ', clear'}`,
      edits: [
        ...(top ? [] : [edit(`fills.${i}.toMm`, 'up to', 'length', 'mm', fill.toMm)]),
        edit(`fills.${i}.formula`, 'formula', 'choice', '', fill.formula, formulaChoices(scene)),
        edit(`fills.${i}.tint.color`, 'tint', 'color', '', fill.tint?.color ?? null),
        edit(`fills.${i}.tint.percent`, 'dye by weight', 'percent', '%', fill.tint?.percent ?? 0),
      ],
      children: [],
    };
  });
  return { key: 'fills', words: `${counted(scene.fills.length, 'fill')}, from the top down`, edits: [], children };
}

/** The scene's own first, then the classes it has not made its own. */
function formulaChoices({ formulas }: Scene): readonly OutlineChoice[] {
  const own = [...formulas.values()].map(({ id, name }) => ({ value: id, words: name }));
  return [...own, ...BUILT_IN.filter((family) => !formulas.has(family)).map((family) => ({ value: family, words: RESIN_CLASSES[family].name }))];
}

function choicesOf(words: Readonly<Record<string, string>>): readonly OutlineChoice[] {
  return Object.entries(words).map(([value, said]) => ({ value, words: said }));
}

function formulasItem(scene: Scene): OutlineItem {
  const children = [...scene.formulas.values()].map((formula): OutlineItem => {
    const typical = formula.typical.length;
    return { key: `formula ${formula.id}`, words: `${formula.name}${typical > 0 ? `, ${counted(typical, 'value')} typical` : ', all from the label'}`, edits: formulaEdits(formula), children: [] };
  });
  return { key: 'formulas', words: counted(children.length, 'formula'), edits: [], children };
}

const UNIT_KIND: Readonly<Record<string, EditKind>> = { mm: 'length', min: 'minutes', h: 'hours' };

function formulaEdits(formula: Formula): readonly OutlineEdit[] {
  return labelFields(formula).map(({ field, words, unit }) => edit(`formulas.${formula.id}.${field}`, words, unit === '' ? 'ratio' : UNIT_KIND[unit], unit, formula[field] ?? null));
}

const BENCH_KIND: Readonly<Record<string, EditKind>> = { g: 'mass', mL: 'volume', h: 'hours', fraction: 'number' };

function benchItem(scene: Scene): OutlineItem {
  return {
    key: 'bench',
    words: `Room at ${plain(scene.room.temperatureC, 1)} °C; bench and scale`,
    edits: [
      edit('room.temperatureC', 'room', 'temperature', '°C', scene.room.temperatureC),
      ...BENCH_FIELDS.map(({ field, words, unit }) => edit(`bench.${field}`, words, BENCH_KIND[unit], unit === 'fraction' ? '' : unit, (scene.bench as Bench)[field])),
    ],
    children: [],
  };
}

function poursItem(plan: Plan): OutlineItem {
  const children = [...plan.pours].reverse().map((pour): OutlineItem => ({ key: `pour ${pour.index}`, words: `Pour ${pour.index}, from ${plain(pour.fromMm, 2)} to ${mm(pour.toMm, 2)}. ${pour.why}`, edits: [], children: [] }));
  return { key: 'pours', words: `${counted(plan.pours.length, 'pour')}, the last first`, edits: [], children };
}

/** `20 mm up, 35 mm deep`: depth counts from the show face. */
function heightAndDepth(scene: Scene, upMm: number): string {
  const deep = depthAt(scene, upMm);
  return `${mm(upMm, 2)} up, ${deep < 0 ? `${mm(-deep, 2)} out of the resin` : `${mm(deep, 2)} deep`}`;
}

function edit(path: string, words: string, kind: EditKind, unit: string, value: OutlineEdit['value'], choices?: readonly OutlineChoice[]): OutlineEdit {
  return choices ? { path, words, kind, unit, value, choices } : { path, words, kind, unit, value };
}
