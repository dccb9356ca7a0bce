/** `npm run plan -- a.scene.json b.scene.json …`: several pieces at one bench, one plan for them all. */
import { basename } from 'node:path';
import { GOAL_SEARCH } from '../core/plan/best/goal-search.ts';
import { simulatedByCups } from '../core/plan/heat-simulated.ts';
import { planText } from '../core/plan/plan-text.ts';
import { planTogether } from '../core/plan/runs/together.ts';
import { togetherText } from '../core/plan/runs/together-text.ts';
import { openBooleans } from '../files/booleans.ts';
import { openSceneFile } from '../files/disk.ts';
import { loadScene, problemsLine, type LoadedScene } from '../files/load.ts';
import { openFigureLibrary } from './library.ts';
import { outputsOfAll } from './plan-contents.ts';
import { realPath, refuseOverwriting, type Options } from './plan-options.ts';
import { Refusal } from './refusal.ts';
import { exitCode, written } from './terminal.ts';
import { writeOutputs } from './write-outputs.ts';

interface Loaded extends LoadedScene {
  readonly file: string;
}

/** Exit code, as for one scene: 1 where any of them has a halt. */
export async function planSeveral(options: Options): Promise<number> {
  refuseWhatIsForOne(options);
  const booleans = await openBooleans();
  const loaded = unlike(await Promise.all(options.files.map((file) => load(file, booleans))));
  const heatOf = simulatedByCups();
  const result = planTogether(loaded.map((one) => ({ scene: one.scene, given: { ...one, booleans, heat: heatOf(one.scene), search: GOAL_SEARCH } })), options.startMin);
  if (!result.ok) throw new Refusal(`${options.files[result.piece]}: ${problemsLine(result.problems)}`);
  const { together, plans } = result;
  for (const { file, document } of loaded) refuseOverwriting(options.outputs, file, document);
  writeOutputs(await outputsOfAll(options, loaded.map((one, i) => ({ ...one, plan: plans[i] })), together));
  const scenes = loaded.map(({ scene }) => scene);
  await written(options.json ? `${JSON.stringify({ together, plans }, null, 2)}\n` : `${togetherText(scenes, together, plans)}${plans.map((plan, i) => planText(scenes[i], plan, { amongOthers: true })).join('\n')}`);
  return exitCode(plans);
}

function refuseWhatIsForOne({ files, folder, whatIf, planes }: Options): void {
  const asked = folder !== undefined ? 'templates' : whatIf.length > 0 ? 'what-if' : planes ? 'planes' : null;
  if (asked) throw new Refusal(`--${asked}: found ${files.length} scenes; expected one. Ask for it scene by scene.`);
  const twice = files.find((file, i) => files.slice(0, i).some((other) => realPath(other) === realPath(file)));
  if (twice !== undefined) throw new Refusal(`Found "${twice}" twice; expected every scene once. For more of one piece give its scene "copies".`);
}

async function load(file: string, booleans: Awaited<ReturnType<typeof openBooleans>>): Promise<Loaded> {
  const loading = await loadScene(await openSceneFile(file), openFigureLibrary(), booleans);
  if (!loading.ok) throw new Refusal(`${file}: ${problemsLine(loading.problems)}`);
  return { ...loading.loaded, file };
}

/** Pieces of one name are told apart by their files’; of one name and file name, by their number. */
function unlike(loaded: readonly Loaded[]): Loaded[] {
  const pieceName = ({ scene }: Loaded) => scene.name;
  const fileName = ({ file }: Loaded) => basename(file).replace(/\.scene\.json$|\.stillpool$/, '');
  const isAlone = (one: Loaded, name: (one: Loaded) => string) => loaded.filter((other) => name(other) === name(one)).length === 1;
  return loaded.map((one, i) => (isAlone(one, pieceName) ? one : { ...one, scene: { ...one.scene, name: `${pieceName(one)} (${isAlone(one, fileName) ? fileName(one) : i + 1})` } }));
}
