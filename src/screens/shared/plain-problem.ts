/** What is in the way of planning, as the person knows the things it is about: no paths into the document. */
import { BENCH_FIELDS } from '../../core/scene/edit/bench.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { nameOf, thingsOf } from '../../core/scene/edit/things.ts';
import type { Problem } from '../../core/scene/read.ts';
import { capital } from '../../core/units/format.ts';

const PARTS: Readonly<Record<string, string>> = {
  mold: 'Mold', cast: 'How it is cast', fillMm: 'Filled to', fills: 'Resin', placements: 'What stands in it', formulas: 'Formulas',
  testCups: 'Test cups', room: 'Room', bench: 'Bench', plan: 'The plan', heat: 'Heat', class: 'The class', copies: 'Copies',
};

/** `Bench hours: found no 40.5 h at a stretch; …`. */
export function plainProblem({ path, message }: Problem, file: SceneFile): string {
  const subject = subjectOf(path, file);
  return subject === null ? capital(message) : `${subject}: ${message}`;
}

function subjectOf(path: string, file: SceneFile): string | null {
  const [, part, at, field] = /^(\w+)(?:\[(\d+)\])?(?:\.(\w+))?/.exec(path) ?? [];
  if (part === undefined) return null;
  if (part === 'bench' && field === 'hours') return 'Bench hours';
  if (part === 'bench') return capital(BENCH_FIELDS.find((each) => each.field === field)?.words ?? 'Bench');
  const placement = part === 'placements' && at !== undefined ? thingsOf(file)[Number(at)] : undefined;
  if (placement) return nameOf(placement);
  const formula = part === 'formulas' && at !== undefined ? file.formulas?.[Number(at)] : undefined;
  return formula ? (formula.name ?? formula.id) : (PARTS[part] ?? null);
}
