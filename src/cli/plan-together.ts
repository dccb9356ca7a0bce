/** `npm run plan -- a.scene.json b.scene.json …`: several pieces at one bench, one plan for them all. */
import { basename } from 'node:path';
import { GOAL_SEARCH } from '../core/plan/best/goal-search.ts';
import { simulatedHeat } from '../core/plan/heat-simulated.ts';
import type { HeatJudge } from '../core/plan/heat-judge.ts';
import { planText } from '../core/plan/plan-text.ts';
import type { Plan } from '../core/plan/plan.ts';
import { planTogether } from '../core/plan/runs/together.ts';
import type { Together } from '../core/plan/runs/together-plan.ts';
import { togetherText } from '../core/plan/runs/together-text.ts';
import { openBooleans } from '../files/booleans.ts';
import { openSceneFile } from '../files/disk.ts';
import { loadScene, problemsLine, type LoadedScene } from '../files/load.ts';
import { openFigureLibrary, projectRoot } from './library.ts';
import { earlierText, outputsOf, pieceOf, realPath, Refusal, refuseOverwriting, written, type Options, type Output } from './plan.ts';
import { stagedOutputs } from './write-outputs.ts';

interface Loaded extends LoadedScene {
  readonly file: string;
}

/** Exit code, as for one scene: 1 where any of them has a halt. */
export async function planSeveral(options: Options): Promise<number> {
  refuseWhatIsForOne(options);
  const booleans = await openBooleans();
  const loaded = unlike(await Promise.all(options.files.map((file) => load(file, booleans))));
  const judges = new Map<string, HeatJudge>();
  const families = new Map();
  const heatOf = ({ scene: { testCups } }: Loaded): HeatJudge => {
    const key = JSON.stringify(testCups);
    const judge = judges.get(key) ?? simulatedHeat(testCups, { families });
    judges.set(key, judge);
    return judge;
  };
  const result = planTogether(loaded.map((one) => ({ scene: one.scene, given: { ...one, booleans, heat: heatOf(one), search: GOAL_SEARCH } })), options.startMin);
  if (!result.ok) throw new Refusal(`${options.files[result.piece]}: ${problemsLine(result.problems)}`);
  const { together, plans } = result;
  for (const { file, scene } of loaded) refuseOverwriting({ ...options, file }, scene, []);
  const pieces = loaded.map((one, i) => ({ ...one, plan: plans[i] }));
  stagedOutputs(await Promise.all(outputsOf(options).map(async ({ name, path }) => ({ name, path, content: await contentOf(name, { path, options, pieces, together }) })))).keep();
  const scenes = loaded.map(({ scene }) => scene);
  await written(options.json ? `${JSON.stringify({ together, plans }, null, 2)}\n` : `${togetherText(scenes, together, plans)}${plans.map((plan, i) => planText(scenes[i], plan, { amongOthers: true })).join('\n')}`);
  return plans.some(({ findings }) => findings.some(({ severity }) => severity === 'halt')) ? 1 : 0;
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
  const isAlone = (name: string, of: (one: Loaded) => string) => loaded.filter((one) => of(one) === name).length === 1;
  return loaded.map((one, i) => {
    const { name } = one.scene;
    if (isAlone(name, ({ scene }) => scene.name)) return one;
    const file = basename(one.file).replace(/\.scene\.json$|\.stillpool$/, '');
    const own = isAlone(file, (other) => basename(other.file).replace(/\.scene\.json$|\.stillpool$/, '')) ? file : String(i + 1);
    return { ...one, scene: { ...one.scene, name: `${name} (${own})` } };
  });
}

interface Content {
  readonly path: string;
  readonly options: Options;
  readonly pieces: readonly (Loaded & { readonly plan: Plan })[];
  readonly together: Together;
}

async function contentOf(name: Output, { path, options, pieces, together }: Content): Promise<Uint8Array | string> {
  if (name === 'csv') return (await import('../files/csv.ts')).poursOfPiecesCsv(pieces);
  if (name === 'ics') {
    const { calendarOfPieces } = await import('../files/calendar.ts');
    return calendarOfPieces(keyed(pieces), 'Poured together', { madeMs: Date.now(), earlier: earlierText(path) });
  }
  const [{ sheetsDocument }, { sheetPdf }, { fontsOnDisk }] = await Promise.all([import('../files/sheet-document.ts'), import('../files/pdf.ts'), import('../files/fonts-disk.ts')]);
  const { document, fonts } = await sheetsDocument(pieces, together, { paper: options.paper, readFont: fontsOnDisk(projectRoot()) });
  return sheetPdf(document, fonts);
}

/** What each piece’s entries are known by; the same in every export, so each its own. */
function keyed(pieces: Content['pieces']): { plan: Plan; piece: string }[] {
  const keys = pieces.map(({ scene, file }) => pieceOf(scene, file));
  const twice = keys.findIndex((key, i) => keys.indexOf(key) !== i);
  if (twice >= 0) throw new Refusal(`--ics: ${pieces[twice].file} has the same "id" as ${pieces[keys.indexOf(keys[twice])].file}; expected one of its own. Give one of the two another id.`);
  return pieces.map(({ plan }, i) => ({ plan, piece: keys[i] }));
}
