/** What the plan command is asked for, and what it must not write over. */
import { realpathSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import type { PrintBars } from '../core/scene/scene.ts';
import { inRange } from '../core/scene/schema.ts';
import { parseLocalTime } from '../core/units/time.ts';
import { linksOf } from '../files/links.ts';
import { Refusal } from './refusal.ts';
import { barsFrom } from './templates.ts';
import { fromHere, optionsFrom } from './terminal.ts';
import type { Target } from './write-outputs.ts';

const USAGE = 'npm run --silent plan -- FILE [FILE …] [--json | --text] [--start YYYY-MM-DDTHH:MM] [--pdf OUT] [--ics OUT] [--csv OUT] [--templates DIR [--bars 99.6x100.2]] [--paper a4|letter] [--what-if "room=20 C"] [--planes]';
/** Options that name a file to be written. */
const OUTPUTS = ['pdf', 'ics', 'csv'] as const;

export interface Options {
  /** At least one; more than one are planned together. */
  readonly files: readonly string[];
  readonly json: boolean;
  readonly startMin?: number;
  readonly outputs: readonly (Target & { readonly name: (typeof OUTPUTS)[number] })[];
  readonly paper: 'a4' | 'letter';
  /** For templates. */
  readonly folder?: string;
  readonly bars?: PrintBars;
  readonly whatIf: readonly string[];
  /** Says how many planes painted creatures might have. */
  readonly planes: boolean;
}

/** Paths count from where the person stood. @throws Refusal */
export function readOptions(args: readonly string[]): Options {
  const text = { type: 'string' } as const;
  const flag = { type: 'boolean' } as const;
  const { values, positionals } = optionsFrom(
    { args, allowPositionals: true, options: { json: flag, text: flag, start: text, pdf: text, paper: text, ics: text, csv: text, templates: text, bars: text, planes: flag, 'what-if': { type: 'string', multiple: true } } },
    USAGE,
  );
  if (positionals.length === 0) throw new Refusal(`Found no file; expected a scene, or several to be poured together. ${USAGE}`);
  if (values.json && values.text) throw new Refusal('Found both --json and --text; expected one of them.');
  const startMin = values.start === undefined ? undefined : parseLocalTime(values.start);
  if (startMin !== undefined && !inRange(startMin)) throw new Refusal(`--start: found "${values.start}"; expected a local time that exists, from 1900 to 2099, like 2026-05-04T08:00.`);
  const paper = values.paper ?? 'a4';
  if (paper !== 'a4' && paper !== 'letter') throw new Refusal(`--paper: found "${paper}"; expected a4 or letter.`);
  if (values.bars !== undefined && values.templates === undefined) throw new Refusal('--bars: found no --templates; expected it with them: they are what is drawn to fit the printer.');
  const outputs = OUTPUTS.flatMap((name) => (values[name] === undefined ? [] : [{ name, path: fromHere(values[name]) }]));
  refuseTwice(outputs);
  return {
    files: positionals.map(fromHere),
    json: values.json ?? false,
    startMin,
    outputs,
    paper,
    folder: values.templates === undefined ? undefined : fromHere(values.templates),
    bars: values.bars === undefined ? undefined : barsFrom(values.bars),
    whatIf: values['what-if'] ?? [],
    planes: values.planes ?? false,
  };
}

/** Each file is written once. @throws Refusal, by the later of two. */
export function refuseTwice(targets: readonly Target[]): void {
  const seen = new Map<string, string>();
  for (const { name, path } of targets) {
    const other = seen.get(realPath(path));
    if (other !== undefined) throw new Refusal(`--${name}: "${path}" is what --${other} writes too; expected a file of its own. Choose another name.`);
    seen.set(realPath(path), name);
  }
}

/** The scene and what it links to are the person's work: no output goes over them. @throws Refusal */
export function refuseOverwriting(targets: readonly Target[], file: string, document: unknown): void {
  const read = new Set([file, ...linksOf(document).map((link) => resolve(dirname(file), link.path))].map(realPath));
  const lost = targets.find(({ path }) => read.has(realPath(path)));
  if (lost) throw new Refusal(`--${lost.name}: "${lost.path}" is the scene or a file it uses, and would be lost. Choose another name.`);
}

/** Links followed as far as there are files. */
export function realPath(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return resolve(path);
  }
}
