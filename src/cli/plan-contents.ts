/** What is written into the plan command's files: the sheet, the calendar, the table. What a run does not write is not loaded. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import type { Plan } from '../core/plan/plan.ts';
import type { Together } from '../core/plan/runs/together-plan.ts';
import { isUndated } from '../core/plan/undated.ts';
import type { Scene } from '../core/scene/scene.ts';
import { UNTITLED } from '../core/scene/schema.ts';
import type { LoadedScene } from '../files/load.ts';
import { projectRoot } from './library.ts';
import type { Options } from './plan-options.ts';
import { Refusal } from './refusal.ts';
import type { Output } from './write-outputs.ts';

/** A scene of this file, and its plan. */
export interface Planned extends LoadedScene {
  readonly file: string;
  readonly plan: Plan;
}

/** The files asked for, of one piece. */
export function outputsOf({ outputs, paper }: Options, piece: Planned): Promise<Output[]> {
  return filled(outputs, async ({ name, path }) => {
    const { scene, plan, file } = piece;
    if (name === 'csv') return (await import('../files/csv.ts')).poursCsv(scene, plan);
    if (name === 'ics') return (await import('../files/calendar.ts')).calendarFile(dated(plan, file), { piece: pieceOf(scene, file), madeMs: Date.now(), earlier: earlierText(path) });
    const { sheetDocument, sheetPdf, readFont } = await sheetMaking();
    const { document, fonts } = await sheetDocument({ ...piece, paper, readFont });
    return sheetPdf(document, fonts);
  });
}

/** The files asked for, of pieces poured together. @throws Refusal */
export function outputsOfAll({ outputs, paper }: Options, pieces: readonly Planned[], together: Together): Promise<Output[]> {
  return filled(outputs, async ({ name, path }) => {
    if (name === 'csv') return (await import('../files/csv.ts')).poursOfPiecesCsv(pieces);
    if (name === 'ics') return (await import('../files/calendar.ts')).calendarOfPieces(keyed(pieces), 'Poured together', { madeMs: Date.now(), earlier: earlierText(path) });
    const { sheetsDocument, sheetPdf, readFont } = await sheetMaking();
    const { document, fonts } = await sheetsDocument(pieces, together, { paper, readFont });
    return sheetPdf(document, fonts);
  });
}

function filled(outputs: Options['outputs'], content: (target: Options['outputs'][number]) => Promise<Output['content']>): Promise<Output[]> {
  return Promise.all(outputs.map(async (target) => ({ ...target, content: await content(target) })));
}

async function sheetMaking() {
  const [documents, { sheetPdf }, { fontsOnDisk }] = await Promise.all([import('../files/sheet-document.ts'), import('../files/pdf.ts'), import('../files/fonts-disk.ts')]);
  return { ...documents, sheetPdf, readFont: fontsOnDisk(projectRoot()) };
}

/** What each piece’s entries are known by; the same in every export, so each its own. */
function keyed(pieces: readonly Planned[]): { plan: Plan; piece: string }[] {
  const keys = pieces.map(({ scene, file }) => pieceOf(scene, file));
  const twice = keys.findIndex((key, i) => keys.indexOf(key) !== i);
  if (twice >= 0) throw new Refusal(`--ics: ${pieces[twice].file} has the same "id" as ${pieces[keys.indexOf(keys[twice])].file}; expected one of its own. Give one of the two another id.`);
  return pieces.map(({ plan, file }, i) => ({ plan: dated(plan, file), piece: keys[i] }));
}

/** What its calendar entries are known by: its id, else its name, else its file's. */
function pieceOf({ id, name }: Scene, file: string): string {
  return id ?? (name === UNTITLED ? basename(file) : name);
}

/** A calendar has dates, not counted days. @throws Refusal */
function dated(plan: Plan, file: string): Plan {
  if (isUndated(plan)) throw new Refusal(`--ics: found no first day in ${file}; expected one, for a calendar needs dates. Give --start, like --start 2026-05-04T08:00, or the scene a first day ("start" in "bench").`);
  return plan;
}

/** What stands where the calendar will be written; nothing where it can't be read. */
function earlierText(path: string): string | undefined {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return undefined;
  }
}
