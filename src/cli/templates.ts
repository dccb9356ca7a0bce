/** `--templates DIR` and `--bars 99.6x100.2` of the plan command: the files of a piece's templates. */
import { readdirSync, statSync } from 'node:fs';
import { basename, join } from 'node:path';
import type { Plan } from '../core/plan/plan.ts';
import type { PrintBars } from '../core/scene/scene.ts';
import { PRINTED_BAR_MM } from '../core/scene/schema.ts';
import { TemplateError } from '../core/sheet/template-pages.ts';
import { listed } from '../core/units/format.ts';
import type { SceneFiles } from '../files/bundle.ts';
import type { LoadedScene } from '../files/load.ts';
import { projectRoot } from './library.ts';
import { Refusal } from './refusal.ts';
import type { Output, Target } from './write-outputs.ts';

/** `99.6x100.2`: what the printed bars of 100 mm measured, across and up. */
export function barsFrom(text: string): PrintBars {
  const found = /^\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*[x×]\s*(\d+(?:\.\d+)?)\s*(?:mm)?\s*$/i.exec(text);
  const [xMm, yMm] = found ? [Number(found[1]), Number(found[2])] : [NaN, NaN];
  const [least, most] = PRINTED_BAR_MM;
  if (![xMm, yMm].every((mm) => mm >= least && mm <= most)) throw new Refusal(`--bars: found "${text}"; expected what the printed bars measured across and up, each from ${least} to ${most} mm, like 99.6x100.2.`);
  return { xMm, yMm };
}

interface Asked {
  readonly folder: string;
  readonly paper: 'a4' | 'letter';
  readonly bars?: PrintBars;
  readonly loaded: LoadedScene;
  readonly files: SceneFiles;
  readonly plan: Plan;
}

/** What is to be written; nothing is yet. @throws Refusal */
export async function templatesOf({ folder, paper, bars, loaded, files, plan }: Asked): Promise<Output[]> {
  const { scene } = loaded;
  if (!scene.placements.some(({ kind }) => kind === 'plane')) throw new Refusal('--templates: found no painted plane in this scene; expected at least one to make a template of. Add one, or leave --templates out.');
  const about = statSync(folder, { throwIfNoEntry: false });
  if (about && !about.isDirectory()) throw new Refusal(`--templates: "${folder}" is a file; expected a folder, or a new name for one.`);
  const [{ templateFiles }, { fontsOnDisk }, { openRegions }] = await Promise.all([import('../files/template-files.ts'), import('../files/fonts-disk.ts'), import('../files/regions.ts')]);
  try {
    const made = await templateFiles({ scene, plan, meshes: loaded.meshes, paper, bars, readFont: fontsOnDisk(projectRoot()), regions: await openRegions(), file: (path) => files.file(path) });
    return made.map(({ name, bytes }) => ({ name: 'templates', path: join(folder, name), content: bytes }));
  } catch (error) {
    if (error instanceof TemplateError) throw new Refusal(`--templates: ${error.message}`);
    throw error;
  }
}

/** Names that only templates have. */
const TEMPLATE_NAME = /^(\d{2,}-.+|stencils(-\d+)?)\.(pdf|svg)$/;

/** One line on templates in the folder that this piece does not have: of a plane renamed, moved or gone. They are the person's to delete; null: none. */
export function olderTemplates(folder: string, files: readonly Target[]): string | null {
  const now = new Set(files.map(({ path }) => basename(path)));
  const older = readdirSync(folder).filter((name) => TEMPLATE_NAME.test(name) && !now.has(name)).sort();
  return older.length === 0 ? null : `--templates: "${folder}" also holds ${listed(older)}, which this piece does not have now. Delete ${older.length === 1 ? 'it' : 'them'} if left from before, so that nobody paints by ${older.length === 1 ? 'it' : 'them'}.`;
}
