/**
 * How many planes? The same creature on one plane, on two, and so on: what each count shows from the side, and what it
 * costs. Every count is a scene of its own, planned like any other by whoever asks; that takes its time, so one by one.
 */
import type { Plan } from '../plan/plan.ts';
import { LEVELS_SHARE } from '../plan/thinnest.ts';
import { withoutGoneInClass } from '../scene/edit/class-things.ts';
import { offPlanes, otherStops, setPlanes } from '../scene/edit/creature.ts';
import type { SceneFile } from '../scene/edit/file.ts';
import { readScene } from '../scene/read.ts';
import type { Creature, Scene } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import { parseLocalTime } from '../units/time.ts';
import { formulasBetween, spacingAdvice } from './advice.ts';
import { countBesideStops } from './beside-stops.ts';
import { evenHeights } from './propose.ts';
import { planesOf } from './slices.ts';

/** Offered; counts that the resin can't be poured between are left out. */
const COUNTS = [1, 2, 3, 4, 5, 6, 7, 8, 10, 12, 16, 20] as const;
const MINUTES_PER_DAY = 24 * 60;

export interface CountChoice {
  readonly planes: number;
  readonly gapMm: number;
  /** The scene with so many planes; taking it is the choice. */
  readonly file: SceneFile;
}

export interface CountRow {
  readonly planes: number;
  /** The widest between neighbors; null of one plane. */
  readonly gapMm: number | null;
  /** How far neighbors slide over each other at 45°, and whether the creature's feather hides it at its own look. */
  readonly stepAt45Mm: number | null;
  readonly hidden: boolean;
  readonly viewDeg: number;
  readonly pours: number;
  /** Later than with none of its planes. */
  readonly daysAdded: number;
  readonly paintH: number;
  /** What of its plan may not be poured, by code; empty: it can be made. */
  readonly halts: readonly string[];
}

export interface CountedCreature {
  readonly file: SceneFile;
  readonly creature: Creature;
  /** How tall it stands, mm. */
  readonly tallMm: number;
}

const LOOK_DEG = 45;

/** The counts worth asking for, fewest first; of a creature out of the resin none. */
export function countChoices(scene: Scene, { file, creature, tallMm }: CountedCreature): CountChoice[] {
  // What stands out of the resin is on no plane.
  const bottomMm = Math.max(0, creature.baseMm);
  const topMm = Math.min(scene.fillMm, creature.baseMm + tallMm);
  if (topMm <= bottomMm) return [];
  const minDepthMm = Math.max(...formulasBetween(scene, bottomMm, topMm).map((formula) => formula.minDepthMm));
  const stopsMm = otherStops(file, creature.id);
  return COUNTS.flatMap((planes): CountChoice[] => {
    const gapMm = (topMm - bottomMm) / planes;
    if (planes > 1 && gapMm < LEVELS_SHARE * minDepthMm) return [];
    const heights = countBesideStops(evenHeights(bottomMm, topMm, planes, { fillMm: scene.fillMm, minDepthMm }), { stopsMm, minDepthMm, bottomMm, topMm });
    const set = heights.length < planes ? null : setPlanes(file, creature.id, heights);
    return set?.ok ? [{ planes, gapMm, file: set.file }] : [];
  });
}

/** What a count comes to, by its plan and the plan of the scene without any plane of the creature. */
export function countRow(choice: CountChoice, creature: Creature, { plan, without }: { readonly plan: Plan; readonly without: Plan }): CountRow {
  const reading = readScene(choice.file);
  if (!reading.ok) throw new Error(`The scene with ${choice.planes} planes can’t be read: ${reading.problems[0].message}`);
  const { scene } = reading;
  const planes = planesOf(scene, creature.id);
  const heights = planes.map(({ atMm }) => atMm).sort((a, b) => a - b);
  // Some were moved onto other stops: the widest gap is the one that shows.
  const widestMm = Math.max(...heights.slice(1).map((atMm, i) => atMm - heights[i]));
  const gapMm = Math.abs(widestMm - choice.gapMm) > STOP_TOLERANCE_MM && heights.length > 1 ? widestMm : choice.gapMm;
  const span = { gapMm, fromMm: Math.min(...heights), toMm: Math.max(...heights) };
  const single = choice.planes === 1;
  return {
    planes: choice.planes,
    gapMm: single ? null : gapMm,
    stepAt45Mm: single ? null : spacingAdvice(scene, { featherMm: creature.featherMm, viewDeg: LOOK_DEG }, span).seenStepMm,
    hidden: single || spacingAdvice(scene, creature, span).hidden,
    viewDeg: creature.viewDeg,
    pours: plan.pours.length,
    daysAdded: (parseLocalTime(plan.finish)! - parseLocalTime(without.finish)!) / MINUTES_PER_DAY,
    paintH: planes.reduce((sum, { paintH }) => sum + paintH, 0),
    halts: [...new Set(plan.findings.filter(({ severity }) => severity === 'halt').map(({ code }) => code))],
  };
}

/** The scene with the creature on no plane: what the days are counted from. */
export function withoutPlanes(file: SceneFile, creatureId: string): SceneFile {
  return withoutGoneInClass(offPlanes(file, creatureId));
}

/** The fewest planes whose steps the feather hides, of those that can be poured; null: none does. */
export function fewestHidden(rows: readonly CountRow[]): CountRow | null {
  return rows.find(({ hidden, halts, planes }) => hidden && planes > 1 && halts.length === 0) ?? null;
}
