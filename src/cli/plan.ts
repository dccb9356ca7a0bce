/** `npm run plan -- FILE …`: the main job without a browser. */
import { GOAL_SEARCH } from '../core/plan/best/goal-search.ts';
import { planScene } from '../core/plan/plan-scene.ts';
import { planText } from '../core/plan/plan-text.ts';
import { readingText } from '../core/sight/reading-words.ts';
import type { Booleans } from '../core/solid/solid.ts';
import type { SceneFiles } from '../files/bundle.ts';
import { openSceneFile } from '../files/disk.ts';
import { loadScene, problemsLine, type ReadingOnce } from '../files/load.ts';
import { creaturesText, paintedCreatures } from './creatures.ts';
import { keptIn, type Kept } from './kept/kept-files.ts';
import { keptHeat } from './kept/kept-heat.ts';
import { readOnce, withKeptBooleans } from './kept/kept-solids.ts';
import { openFigureLibrary } from './library.ts';
import { outputsOf } from './plan-contents.ts';
import { readOptions, refuseOverwriting, refuseTwice, type Options } from './plan-options.ts';
import { pieceReading } from './reading.ts';
import { orRefused, Refusal } from './refusal.ts';
import { olderTemplates, templatesOf } from './templates.ts';
import { exitCode, written } from './terminal.ts';
import { answersOf, askedOf, whatIfText } from './what-if.ts';
import { writeOutputs } from './write-outputs.ts';

/** Exit code: 0 a plan, 1 a plan with a halt, 2 nothing, 3 a fault of the program. */
export function main(args: readonly string[]): Promise<number> {
  return orRefused(async () => {
    const options = readOptions(args);
    return options.files.length > 1 ? (await import('./plan-together.ts')).planSeveral(options) : planOne(options, options.files[0]);
  });
}

async function planOne(options: Options, file: string): Promise<number> {
  const kept = keptIn(process.env.STILLPOOL_KEPT);
  const files = await openSceneFile(file);
  const once = readOnce(kept);
  const { loaded, plan, whatIf, painted } = await withKeptBooleans(kept, (booleans) => plannedPiece(options, { file, files, kept, once, booleans }));
  const reading = await pieceReading(loaded, plan, files);
  const { folder } = options;
  const templates = folder === undefined ? [] : await templatesOf({ ...options, folder, loaded, files, plan });
  const targets = [...templates, ...options.outputs];
  refuseTwice(targets);
  refuseOverwriting(targets, file, loaded.document);
  writeOutputs([...(await outputsOf(options, { ...loaded, plan, file })), ...templates], folder);
  const older = folder === undefined ? null : olderTemplates(folder, templates);
  if (older !== null) console.error(older);
  const text = options.json ? `${JSON.stringify({ ...plan, ...painted, ...(reading && { reading }), ...(whatIf && { whatIf }) }, null, 2)}\n` : `${planText(loaded.scene, plan)}${painted ? creaturesText(painted) : ''}${reading ? readingText(loaded.scene, reading) : ''}${whatIf ? whatIfText(whatIf) : ''}`;
  await written(text);
  return exitCode([plan]);
}

interface Asked {
  readonly file: string;
  readonly files: SceneFiles;
  readonly kept: Kept;
  readonly once: ReadingOnce;
  readonly booleans: Booleans;
}

/** The scene read and planned, with what else was asked of the planner. @throws Refusal */
async function plannedPiece(options: Options, { file, files, kept, once, booleans }: Asked) {
  const loading = await loadScene(files, openFigureLibrary(), booleans, once);
  if (!loading.ok) throw new Refusal(`${file}: ${problemsLine(loading.problems)}`);
  const { loaded } = loading;
  const tries = options.whatIf.length > 0 ? askedOf(options.whatIf, loaded.document) : null;
  const heat = keptHeat(loaded.scene, kept);
  const given = { ...loaded, booleans, startMin: options.startMin, heat: heat.judge, search: GOAL_SEARCH };
  const result = planScene(loaded.scene, { ...given, compare: true });
  if (!result.ok) throw new Refusal(`${file}: ${problemsLine(result.problems)}`);
  const { plan } = result;
  const whatIf = tries && answersOf(tries, { scene: loaded.scene, plan }, (scene, notes) => planScene(scene, { ...given, notes }));
  const painted = await paintedCreatures(loaded, files, options.planes ? (scene) => planScene(scene, given) : null);
  heat.keep();
  return { loaded, plan, whatIf, painted };
}
