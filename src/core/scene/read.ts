/**
 * From a parsed scene file to a scene: migrated, validated, defaults filled in, or refused with the path of
 * each problem, what was found and what is allowed. Nothing of the document is lost: it is kept beside the
 * scene, and what is not understood is reported as a note.
 */
import * as v from 'valibot';
import { readTestCups, type TestCup } from '../cure/test-cup.ts';
import type { Finding } from '../plan/plan.ts';
import { BUILT_IN } from '../resin/classes.ts';
import { completeFormula, isBuiltIn, mixOf } from '../resin/formula.ts';
import { parseLocalTime } from '../units/time.ts';
import { linkFlaw } from './links.ts';
import { migrate } from './migrate.ts';
import { problemOf, shown, type Problem } from './schema-problem.ts';
import type { Walkable } from './schema-walk.ts';
import { SCENE_SCHEMA, type SceneDocument } from './schema.ts';
import type { Formula, Mold, Placement, Scene, Shape } from './scene.ts';
import { setAside } from './set-aside.ts';
import { STOP_TOLERANCE_MM } from './tolerance.ts';
import { unknownFields } from './unknown.ts';
import { usualHold } from './usual-hold.ts';
import { creaturesOf } from './read-creatures.ts';
import { coatFormulaOf, finishingOf } from './read-finishing.ts';
import { classOf } from './read-class.ts';
import { stockOf } from './read-stock.ts';
import { strokesOf } from './read-strokes.ts';
import { exceptionsOf, hoursFrom, wishesOf } from './read-wishes.ts';
import { roomOf } from './read-room.ts';

export type { Problem } from './schema-problem.ts';

export type Reading =
  | { readonly ok: true; readonly scene: Scene; readonly document: unknown; readonly notes: readonly Finding[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** More problems than this say the same thing again. */
const PROBLEMS_SHOWN = 20;
/** Unknown fields listed one by one before the rest is counted. */
const UNKNOWN_SHOWN = 20;

/** Products of typed decimals carry noise far below this share. */
const SAME_SHARE = 1e-12;
/** Two heights typed as one number may differ by this after unit conversion, mm. */
const SAME_HEIGHT_MM = 1e-6;

/** Reads a parsed scene file. Linear in its size; never throws on any JSON value. */
export function readScene(document: unknown): Reading {
  const current = migrate(document);
  if (!current.ok) return { ok: false, problems: [current.problem] };
  const aside = setAside(current.document);
  const parsed = v.safeParse(SCENE_SCHEMA, aside.document, { abortPipeEarly: true });
  if (!parsed.success) return { ok: false, problems: parsed.issues.slice(0, PROBLEMS_SHOWN).map((issue) => problemOf(issue, SCENE_SCHEMA as unknown as Walkable)) };
  const problems: Problem[] = [];
  const scene = sceneFrom(parsed.output, problems);
  if (problems.length > 0) return { ok: false, problems: problems.slice(0, PROBLEMS_SHOWN) };
  return { ok: true, scene, document, notes: [...aside.notes, ...unknownNotes(aside.document)] };
}

/** One line for each problem. */
export function problemLine({ path, message }: Problem): string {
  return path ? `${path}: ${message}` : message;
}

function sceneFrom(doc: SceneDocument, problems: Problem[]): Scene {
  const refuse = (path: string, message: string) => problems.push({ path, message });
  checkMold(doc.mold as Mold, refuse);
  checkFills(doc, refuse);
  const formulas = formulasOf(doc, refuse);
  checkHoldUp(doc, formulas, refuse);
  return {
    id: doc.id,
    name: doc.name,
    mold: doc.mold as Mold,
    cast: doc.cast,
    fillMm: doc.fillMm,
    fills: doc.fills,
    placements: placementsOf(doc, refuse),
    creatures: creaturesOf(doc, checkShape, refuse),
    ...strokesOf(doc, refuse),
    formulas,
    heatModel: doc.heat.model,
    testCups: testCupsOf(doc, formulas, refuse),
    room: roomOf(doc),
    bench: {
      ...doc.bench,
      dyeScaleG: doc.bench.dyeScaleG ?? doc.bench.scaleG,
      startMin: doc.bench.start === undefined ? undefined : parseLocalTime(doc.bench.start)!,
      hours: doc.bench.hours.map(hoursFrom),
      exceptions: exceptionsOf(doc, refuse),
      readyByMin: doc.bench.readyBy === undefined ? undefined : parseLocalTime(doc.bench.readyBy)!,
    },
    plan: wishesOf(doc, formulas, refuse),
    stock: stockOf(doc, formulas, refuse),
    labor: doc.labor ?? null,
    finishing: finishingOf(doc, formulas, refuse),
    run: { copies: doc.copies ?? doc.class?.students ?? 1, mixMin: doc.bench.mixMin, moldMin: doc.bench.moldMin },
    class: classOf(doc, refuse),
    lamp: doc.lamp,
  };
}

type Refuse = (path: string, message: string) => void;

function checkMold(mold: Mold, refuse: Refuse): void {
  if (mold.shape !== 'box') return;
  const most = Math.min(mold.lengthMm, mold.widthMm) / 2;
  if (mold.cornerRadiusMm > most) {
    refuse('mold.cornerRadiusMm', `found ${mold.cornerRadiusMm} mm; expected at most ${most} mm, half of the shorter side. Lower it or use a round mold.`);
  }
}

function checkFills(doc: SceneDocument, refuse: Refuse): void {
  let below = 0;
  doc.fills.forEach((fill, i) => {
    if (fill.toMm <= below) {
      refuse(`fills[${i}].toMm`, `found ${fill.toMm} mm; expected more than ${below} mm, where the fill below it ends. List fills from the floor up.`);
    }
    below = Math.max(below, fill.toMm);
    if (fill.tint?.target && !fill.tint.swatch) {
      refuse(`fills[${i}].tint.target`, 'has no swatch to be worked out from; expected "swatch" beside it: the percent of dye, the thickness and the share of light that passes a chip you poured, like { "percent": 0.1, "mm": 10, "passes": 0.9 }.');
    }
  });
  const last = doc.fills[doc.fills.length - 1];
  if (Math.abs(last.toMm - doc.fillMm) > SAME_HEIGHT_MM) {
    refuse(`fills[${doc.fills.length - 1}].toMm`, `found ${last.toMm} mm; expected ${doc.fillMm} mm, the scene’s fillMm. The last fill ends at the top.`);
  }
}

function formulasOf(doc: SceneDocument, refuse: Refuse): Map<string, Formula> {
  const formulas = new Map<string, Formula>();
  doc.formulas.forEach((label, i) => {
    const path = `formulas[${i}]`;
    if (formulas.has(label.id)) refuse(`${path}.id`, `found "${label.id}" a second time; expected each formula’s id once.`);
    const onePart = label.family === 'uv';
    if (!isBuiltIn(label.id)) {
      if (label.maxDepthMm === undefined) refuse(`${path}.maxDepthMm`, 'is missing; expected the greatest depth of one pour from the label, in mm.');
      if (!onePart && !label.ratioByVolume && !label.ratioByMass) {
        refuse(path, 'has no ratio; expected ratioByVolume or ratioByMass as on the label, like [2, 1].');
      }
    }
    if (onePart && (label.ratioByVolume || label.ratioByMass)) {
      refuse(path, 'has a ratio; expected none: a light-cured resin has one part. Leave the ratio out or choose another family.');
    }
    formulas.set(label.id, completeFormula(label as Parameters<typeof completeFormula>[0]));
  });
  const named = (id: string, path: string) => {
    if (formulas.has(id)) return;
    if (isBuiltIn(id)) formulas.set(id, completeFormula({ id }));
    else {
      const known = [...formulas.keys(), ...BUILT_IN];
      refuse(path, `found "${id}"; expected one of ${[...new Set(known)].slice(0, 12).map((name) => `"${name}"`).join(', ')}.`);
    }
  };
  doc.fills.forEach((fill, i) => named(fill.formula, `fills[${i}].formula`));
  doc.plan.formulas?.forEach((id, i) => named(id, `plan.formulas[${i}]`));
  const coat = coatFormulaOf(doc);
  if (coat !== null) named(coat, 'finishing.coat.formula');
  return formulas;
}

/** A cup that keeps half of what fits in it can't be planned for. */
function checkHoldUp(doc: SceneDocument, formulas: ReadonlyMap<string, Formula>, refuse: Refuse): void {
  const coat = coatFormulaOf(doc);
  for (const name of new Set([...doc.fills.map((fill) => fill.formula), ...(doc.plan.formulas ?? []), ...(coat === null ? [] : [coat])])) {
    const formula = formulas.get(name);
    if (!formula) continue;
    const heldG = doc.bench.holdUpMl * mixOf(formula).densityGPerMl;
    if (heldG >= (formula.maxBatchG / 2) * (1 - SAME_SHARE)) {
      refuse(
        'bench.holdUpMl',
        `found ${doc.bench.holdUpMl} mL, ${heldG.toFixed(1)} g of ${formula.name}; expected less than half of its largest cup, ${formula.maxBatchG / 2} g. Scrape the cup better, or allow a larger one.`,
      );
    }
  }
}

/** Cups of formulas that the file knows. */
function testCupsOf(doc: SceneDocument, formulas: ReadonlyMap<string, Formula>, refuse: Refuse): readonly TestCup[] {
  const { cups, problems } = readTestCups(doc.testCups);
  for (const { path, message } of problems) refuse(path, message);
  doc.testCups.forEach(({ formula }, i) => {
    if (typeof formula !== 'string' || formulas.has(formula) || isBuiltIn(formula)) return;
    refuse(`testCups[${i}].formula`, `found ${shown(formula)}; expected one of ${[...formulas.keys()].slice(0, 12).map((name) => `"${name}"`).join(', ')}.`);
  });
  return cups;
}

function placementsOf(doc: SceneDocument, refuse: Refuse): Placement[] {
  const seen = new Set<string>();
  return doc.placements.map((placement, i): Placement => {
    const path = `placements[${i}]`;
    if (seen.has(placement.id)) refuse(`${path}.id`, `found "${placement.id}" a second time; expected each placement’s id once.`);
    seen.add(placement.id);
    const name = placement.name ?? placement.id;
    if (placement.kind === 'plane') {
      if (placement.atMm > doc.fillMm + STOP_TOLERANCE_MM) {
        refuse(`${path}.atMm`, `found ${placement.atMm} mm; expected at most ${doc.fillMm} mm, the fill’s height. Lower the plane or fill higher.`);
      }
      if (placement.art) checkLink(placement.art.file, `${path}.art.file`, refuse);
      return { ...placement, name };
    }
    checkShape(placement.shape as Shape, `${path}.shape`, refuse);
    return { ...placement, name, hold: placement.hold ?? usualHold(placement.kind, placement.baseMm) } as Placement;
  });
}

function checkShape(shape: Shape, path: string, refuse: Refuse): void {
  if (shape.type === 'mesh') checkLink(shape.file, `${path}.file`, refuse);
  if (shape.type === 'cap' && shape.rimRadiusMm > shape.sphereRadiusMm) {
    refuse(`${path}.rimRadiusMm`, `found ${shape.rimRadiusMm} mm; expected at most ${shape.sphereRadiusMm} mm, the sphere’s radius.`);
  }
  if (shape.type === 'measured') {
    const boxMl = (shape.lengthMm * shape.widthMm * shape.heightMm) / 1000;
    if (shape.volumeMl > boxMl * (1 + SAME_SHARE)) {
      refuse(`${path}.volumeMl`, `found ${shape.volumeMl} mL; expected at most ${boxMl.toFixed(1)} mL, all of its length × width × height. Measure again.`);
    }
  }
}

function checkLink(link: string, path: string, refuse: Refuse): void {
  const flaw = linkFlaw(link);
  if (flaw !== null) refuse(path, `found ${shown(link)}, which ${flaw}; expected a file in the scene’s own folder, such as assets/newt.stl.`);
}

function unknownNotes(document: unknown): Finding[] {
  const paths = unknownFields(document);
  const notes = paths.slice(0, UNKNOWN_SHOWN).map(
    (path): Finding => ({
      code: 'unknown-field',
      severity: 'note',
      subject: path,
      message: `${path} is not a field this version knows. It is kept, and nothing is made of it.`,
      remedy: 'Check its spelling.',
    }),
  );
  if (paths.length > UNKNOWN_SHOWN) {
    const more = paths.length - UNKNOWN_SHOWN;
    notes.push({ code: 'unknown-field', severity: 'note', subject: 'scene', message: `${more} more fields are not known. They are kept.`, remedy: 'Check their spelling.' });
  }
  return notes;
}
