/** What `plan` says of painted creatures: what to paint on each plane, and how many planes there might be. */
import type { Plan, PlanResult } from '../core/plan/plan.ts';
import { sceneFile } from '../core/scene/edit/file.ts';
import { readScene } from '../core/scene/read.ts';
import type { Scene } from '../core/scene/scene.ts';
import { countChoices, countRow, withoutPlanes, type CountRow } from '../core/sight/plane-counts.ts';
import { builtSections } from '../core/sight/eye.ts';
import { awayWords } from '../core/sight/lamp-words.ts';
import { creatureReports, type CreatureReport } from '../core/sight/report.ts';
import { sectionsFrom } from '../core/sight/slices.ts';
import { strataOf } from '../core/sight/water.ts';
import { counted, listed, mm, percent, plain, span } from '../core/units/format.ts';
import type { SceneFiles } from '../files/bundle.ts';
import { creatureColors } from '../files/creature-colors.ts';
import type { LoadedScene } from '../files/load.ts';
import { openRegions } from '../files/regions.ts';

export interface CountedPlanes {
  readonly id: string;
  readonly rows: readonly CountRow[];
}

export interface PaintedCreatures {
  readonly creatures: readonly CreatureReport[];
  /** Only where asked for: every count is a plan of its own. */
  readonly planeCounts?: readonly CountedPlanes[];
}

/** Null of a scene without creatures. `counting` plans a scene with another number of planes; null: not asked. */
export async function paintedCreatures({ scene, document, meshes }: LoadedScene, files: SceneFiles, counting: ((scene: Scene) => PlanResult) | null): Promise<PaintedCreatures | null> {
  if (scene.creatures.length === 0) return null;
  const sectionsOf = sectionsFrom(meshes);
  const creatures = creatureReports(scene, { regions: await openRegions(), sectionsOf, colors: await creatureColors(scene.creatures, (path) => files.file(path)) });
  const opened = sceneFile(document);
  if (counting === null || !opened.ok) return { creatures };
  const { file } = opened;
  const planned = (changed: typeof file): Plan | null => {
    const reading = readScene(changed);
    const result = reading.ok ? counting(reading.scene) : null;
    return result?.ok ? result.plan : null;
  };
  const planeCounts = scene.creatures.filter((creature) => creatures.some(({ id, why }) => id === creature.id && why === null)).map((creature): CountedPlanes => {
    const without = planned(withoutPlanes(file, creature.id));
    const { min, max } = builtSections(sectionsOf(creature), creature, strataOf(scene)).bounds;
    const rows = without === null ? [] : countChoices(scene, { file, creature, tallMm: max[2] - min[2] }).flatMap((choice) => {
      const plan = planned(choice.file);
      return plan === null ? [] : [countRow(choice, creature, { plan, without })];
    });
    return { id: creature.id, rows };
  });
  return { creatures, planeCounts };
}

/** For people. */
export function creaturesText({ creatures, planeCounts }: PaintedCreatures): string {
  return creatures.map((creature) => `\n${[...creatureLines(creature), ...countLines(planeCounts?.find(({ id }) => id === creature.id))].join('\n')}\n`).join('');
}

function creatureLines({ name, planes, steps, cycleH, why, colorsWhy }: CreatureReport): string[] {
  if (why !== null) return [`Painted: ${name}`, `  ${why}`];
  if (planes.length === 0) return [`Painted: ${name}`, '  on no plane yet.'];
  return [
    `Painted: ${name}, on ${planes.length === 1 ? 'one plane' : `${planes.length} planes`}`,
    ...planes.flatMap(({ order, name: plane, atMm, depthMm, outlineCm2, freshCm2, shading, hints, colors }) => [
      `  ${order}. ${plane}, ${plain(atMm)} up, ${plain(depthMm)} deep: ${plain(outlineCm2)} cm², ${plain(freshCm2)} of it new. ${shading}`,
      ...(colors ? [`     ${listed(colors.map(({ share, words, hex }) => `${percent(share, 0)} ${words} (${hex})`))}.`] : []),
      ...hints.map(({ atXMm, atYMm, words }) => `     ${placeWords(atXMm, atYMm)}: ${words}`),
    ]),
    ...(colorsWhy === undefined ? [] : [`  ${colorsWhy}`]),
    // Neighbors alike say the same once.
    ...new Set(steps.map(({ words }) => `  ${words}`)),
    ...(cycleH === null ? [] : [`  A plane takes ${span(60 * cycleH)} at the least: to harden, scuff, paint, dry and pour over.`]),
  ];
}

function placeWords(xMm: number, yMm: number): string {
  const away = awayWords(xMm, yMm);
  return away ? `${away} of the mold’s middle` : 'in the mold’s middle';
}

function countLines(table: CountedPlanes | undefined): string[] {
  if (!table || table.rows.length === 0) return [];
  return [
    '  How many planes?',
    ...table.rows.map(({ planes, gapMm, stepAt45Mm, hidden, pours, daysAdded, paintH, halts, viewDeg }) => {
      const step = gapMm === null || stepAt45Mm === null ? 'flat' : `${mm(gapMm)} apart, ${mm(stepAt45Mm)} step at 45°${viewDeg === 45 ? '' : ','} ${hidden ? 'hidden' : 'showing'}${viewDeg === 45 ? '' : ` at ${plain(viewDeg, 0)}°`}`;
      return `    ${planes}: ${step}; ${counted(pours, 'pour')}, ${plain(daysAdded)} days more, ${plain(paintH)} h of painting${halts.length > 0 ? `; do not pour: ${halts.join(', ')}` : ''}`;
    }),
  ];
}
