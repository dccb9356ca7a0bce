/** `npm run plan -- FILE …`: the main job without a browser. */
import { readFileSync, realpathSync } from 'node:fs';
import { basename, dirname, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { GOAL_SEARCH } from '../core/plan/best/goal-search.ts';
import { planScene } from '../core/plan/plan-scene.ts';
import { planText } from '../core/plan/plan-text.ts';
import type { Plan } from '../core/plan/plan.ts';
import type { PrintBars, Scene } from '../core/scene/scene.ts';
import { inRange, UNTITLED } from '../core/scene/schema.ts';
import { readingText } from '../core/sight/reading-words.ts';
import type { Booleans } from '../core/solid/solid.ts';
import { parseLocalTime } from '../core/units/time.ts';
import { SceneFileError, type SceneFiles } from '../files/bundle.ts';
import { openSceneFile } from '../files/disk.ts';
import { loadScene, problemsLine, type LoadedScene } from '../files/load.ts';
import { creaturesText, paintedCreatures } from './creatures.ts';
import { keptIn, type Kept } from './kept/kept-files.ts';
import { keptHeat } from './kept/kept-heat.ts';
import { readOnce, withKeptBooleans } from './kept/kept-solids.ts';
import { openFigureLibrary, projectRoot } from './library.ts';
import { pieceReading } from './reading.ts';
import { barsFrom, olderTemplates, TemplateRefusal, templatesOf, writeTemplates, type ToWrite } from './templates.ts';
import { answersOf, askedOf, whatIfText, WhatIfRefusal } from './what-if.ts';
import { stagedOutputs, WriteRefusal } from './write-outputs.ts';

const USAGE = 'npm run --silent plan -- FILE [FILE …] [--json | --text] [--start YYYY-MM-DDTHH:MM] [--pdf OUT] [--ics OUT] [--csv OUT] [--templates DIR [--bars 99.6x100.2]] [--paper a4|letter] [--what-if "room=20 C"] [--planes]';
/** Options that name a file to be written. */
const OUTPUTS = ['pdf', 'ics', 'csv'] as const;

/** A request that can't be served: one line on stderr, exit 2, no output. */
export class Refusal extends Error {}

/** Exit code: 0 a plan, 1 a plan with a halt, 2 nothing. */
export async function main(args: string[]): Promise<number> {
  try {
    return await plan(args);
  } catch (error) {
    if (error instanceof Refusal || error instanceof WhatIfRefusal || error instanceof TemplateRefusal || error instanceof WriteRefusal || error instanceof SceneFileError) {
      console.error(error.message.replace(/\s+/g, ' '));
      return 2;
    }
    throw error;
  }
}

async function plan(args: string[]): Promise<number> {
  const options = readOptions(args);
  if (options.files.length > 1) return (await import('./plan-together.ts')).planSeveral(options);
  const kept = keptIn(process.env.STILLPOOL_KEPT);
  const files = await openSceneFile(options.file);
  const { loaded, plan, whatIf, painted } = await withKeptBooleans(kept, (booleans) => plannedPiece(options, { files, kept, booleans }));
  const reading = await pieceReading(loaded, plan, files);
  const { folder } = options;
  const templates = folder === undefined ? [] : await templatesOf({ ...options, folder, loaded, files, plan });
  refuseOverwriting(options, loaded.scene, templates);
  const contents = await Promise.all(outputsOf(options).map(async ({ name, path }) => ({ name, path, content: await contentOf(name, { path, options, loaded, plan }) })));
  const staged = stagedOutputs(contents, folder);
  try {
    if (folder !== undefined) writeTemplates(folder, templates);
  } catch (error) {
    staged.drop();
    throw error;
  }
  staged.keep();
  const older = folder === undefined ? null : olderTemplates(folder, templates);
  if (older !== null) console.error(older);
  const text = options.json ? `${JSON.stringify({ ...plan, ...painted, ...(reading && { reading }), ...(whatIf && { whatIf }) }, null, 2)}\n` : `${planText(loaded.scene, plan)}${painted ? creaturesText(painted) : ''}${reading ? readingText(loaded.scene, reading) : ''}${whatIf ? whatIfText(whatIf) : ''}`;
  await written(text);
  return plan.findings.some((finding) => finding.severity === 'halt') ? 1 : 0;
}

/** The scene read and planned, with what else was asked of the planner. Throws Refusal. */
async function plannedPiece(options: Options, { files, kept, booleans }: { readonly files: SceneFiles; readonly kept: Kept; readonly booleans: Booleans }) {
  const loading = await loadScene(files, openFigureLibrary(), booleans, readOnce(kept));
  if (!loading.ok) throw new Refusal(`${options.file}: ${problemsLine(loading.problems)}`);
  const { loaded } = loading;
  const tries = options.whatIf.length > 0 ? askedOf(options.whatIf, loaded.document) : null;
  const heat = keptHeat(loaded.scene, kept);
  const given = { ...loaded, booleans, startMin: options.startMin, heat: heat.judge, search: GOAL_SEARCH };
  const result = planScene(loaded.scene, { ...given, compare: true });
  if (!result.ok) throw new Refusal(`${options.file}: ${problemsLine(result.problems)}`);
  const { plan } = result;
  const whatIf = tries && answersOf(tries, { scene: loaded.scene, plan }, (scene, notes) => planScene(scene, { ...given, notes }));
  const painted = await paintedCreatures(loaded, files, options.planes ? (scene) => planScene(scene, given) : null);
  heat.keep();
  return { loaded, plan, whatIf, painted };
}

export interface Options {
  readonly file: string;
  /** More than one: planned together. */
  readonly files: readonly string[];
  readonly json: boolean;
  readonly startMin?: number;
  readonly outputs: { readonly [name in Output]?: string };
  readonly paper: 'a4' | 'letter';
  /** For templates. */
  readonly folder?: string;
  readonly bars?: PrintBars;
  readonly whatIf: readonly string[];
  /** Says how many planes painted creatures might have. */
  readonly planes: boolean;
}

export type Output = (typeof OUTPUTS)[number];

function readOptions(args: string[]): Options {
  const { values, positionals } = parsed(args);
  if (positionals.length === 0) throw new Refusal(`Found no file; expected a scene, or several to be poured together. ${USAGE}`);
  if (values.json && values.text) throw new Refusal('Found both --json and --text; expected one of them.');
  const startMin = values.start === undefined ? undefined : parseLocalTime(values.start);
  if (startMin !== undefined && !inRange(startMin)) throw new Refusal(`--start: found "${values.start}"; expected a local time that exists, from 1900 to 2099, like 2026-05-04T08:00.`);
  const paper = values.paper ?? 'a4';
  if (paper !== 'a4' && paper !== 'letter') throw new Refusal(`--paper: found "${paper}"; expected a4 or letter.`);
  if (values.bars !== undefined && values.templates === undefined) throw new Refusal('--bars: found no --templates; expected it with them: they are what is drawn to fit the printer.');
  const bars = values.bars === undefined ? undefined : barsFrom(values.bars);
  const folder = values.templates === undefined ? undefined : fromHere(values.templates);
  return { file: fromHere(positionals[0]), files: positionals.map(fromHere), folder, bars, json: values.json ?? false, startMin, outputs: outputsFrom(values), paper, whatIf: values['what-if'] ?? [], planes: values.planes ?? false };
}

function parsed(args: string[]) {
  const text = { type: 'string' } as const;
  const flag = { type: 'boolean' } as const;
  try {
    return parseArgs({
      args,
      allowPositionals: true,
      options: { json: flag, text: flag, start: text, pdf: text, paper: text, ics: text, csv: text, templates: text, bars: text, planes: flag, 'what-if': { type: 'string', multiple: true } },
    });
  } catch (error) {
    throw new Refusal(`${(error as Error).message.split('.')[0]}. ${USAGE}`);
  }
}

/** npm runs scripts in the package's folder; what the person typed counts from where they stood. */
function fromHere(path: string): string {
  return resolve(process.env.INIT_CWD ?? process.cwd(), path);
}

function outputsFrom(values: { readonly [name in Output]?: string }): Options['outputs'] {
  const given = OUTPUTS.filter((name) => values[name] !== undefined).map((name): [Output, string] => [name, fromHere(values[name]!)]);
  given.forEach(([name, path], i) => {
    const twice = given.slice(0, i).find(([, other]) => realPath(other) === realPath(path));
    if (twice) throw new Refusal(`--${name}: "${path}" is what --${twice[0]} writes too; expected a file of its own. Choose another name.`);
  });
  return Object.fromEntries(given);
}

export function outputsOf({ outputs }: Options): { name: Output; path: string }[] {
  return OUTPUTS.flatMap((name) => (outputs[name] === undefined ? [] : [{ name, path: outputs[name] }]));
}

/** The scene and what it links to are the person's work: no output goes over them. */
export function refuseOverwriting(options: Options, scene: Scene, templates: readonly ToWrite[]): void {
  const links = scene.placements.flatMap((placement) => {
    if (placement.kind === 'plane') return placement.art ? [placement.art.file] : [];
    return placement.shape.type === 'mesh' ? [placement.shape.file] : [];
  });
  links.push(...scene.creatures.flatMap(({ shape }) => (shape.type === 'mesh' ? [shape.file] : [])));
  const read = [options.file, ...links.map((link) => resolve(dirname(options.file), link))].map(realPath);
  for (const { path } of templates) {
    const other = outputsOf(options).find((output) => realPath(output.path) === realPath(path));
    if (other) throw new Refusal(`--${other.name}: "${other.path}" is what --templates writes too; expected a file of its own. Choose another name.`);
  }
  for (const { name, path } of [...outputsOf(options), ...templates.map(({ path }) => ({ name: 'templates', path }))]) {
    if (read.includes(realPath(path))) throw new Refusal(`--${name}: "${path}" is the scene or a file it uses, and would be lost. Choose another name.`);
  }
}

export function realPath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return resolve(path);
  }
}

interface Content {
  readonly path: string;
  readonly options: Options;
  readonly loaded: LoadedScene;
  readonly plan: Plan;
}

async function contentOf(name: Output, { path, options, loaded, plan }: Content): Promise<Uint8Array | string> {
  if (name === 'csv') return (await import('../files/csv.ts')).poursCsv(loaded.scene, plan);
  if (name === 'ics') {
    const { calendarFile } = await import('../files/calendar.ts');
    return calendarFile(plan, { piece: pieceOf(loaded.scene, options.file), madeMs: Date.now(), earlier: earlierText(path) });
  }
  const [{ sheetDocument }, { sheetPdf }, { fontsOnDisk }] = await Promise.all([import('../files/sheet-document.ts'), import('../files/pdf.ts'), import('../files/fonts-disk.ts')]);
  const { document, fonts } = await sheetDocument({ ...loaded, plan, paper: options.paper, readFont: fontsOnDisk(projectRoot()) });
  return sheetPdf(document, fonts);
}

/** What its calendar entries are known by: its id, else its name, else its file's. */
export function pieceOf({ id, name }: Scene, file: string): string {
  return id ?? (name === UNTITLED ? basename(file) : name);
}

/** What stands where the calendar will be written; nothing where it can't be read. */
export function earlierText(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
}

/** Waits until stdout has taken it all: a pipe takes less than a plan at once. */
export function written(text: string): Promise<void> {
  return new Promise((done, fail) => process.stdout.write(text, (error) => (error && (error as NodeJS.ErrnoException).code !== 'EPIPE' ? fail(error) : done())));
}
