/** What the page says of pieces that are poured together: why they can't be, and what to mind, halts first. Pure. */
import type { Finding } from '../../../core/plan/plan.ts';
import { sceneFile } from '../../../core/scene/edit/file.ts';
import type { Problem } from '../../../core/scene/read.ts';
import type { PlannedTogether } from '../../../work/together-protocol.ts';
import { plainProblem } from '../../shared/plain-problem.ts';

/** What pieces at one bench must have alike, as the person knows it. By the scene's field. */
const ALIKE: Readonly<Record<string, string>> = {
  'bench.hours': 'bench hours', 'bench.exceptions': 'days on which the bench is shut or has other hours', 'bench.scaleG': 'step of the scale', 'bench.dyeScaleG': 'step of the scale for dye',
  'bench.holdUpMl': 'what stays in the cup', 'bench.bottlesC': 'how warm the bottles are', 'bench.mixMin': 'time to mix a cup', 'bench.moldMin': 'time to fill a mold',
  'room.temperatureC': 'how warm the room is', 'room.profile': 'how warm the room is, and from when', 'room.humidity': 'how damp the air is', 'room.sleep': 'hours in which someone sleeps there',
};

/** One line a problem. `piece` 0 is the open one. */
export function problemLines({ piece, problems }: { readonly piece: number | null; readonly problems: readonly Problem[] }, pieces: readonly { readonly name: string; readonly document: unknown }[]): string[] {
  if (piece === null) return problems.map(({ message }) => message);
  const { name, document } = pieces[piece];
  return problems.map((problem) => {
    const alike = ALIKE[problem.path];
    if (alike !== undefined && problem.message.includes('one bench')) return `${name}: the card says otherwise than in ${pieces[0].name} (${alike}). Pieces that are poured together stand at one bench, in one room: make the two agree.`;
    if (problem.path === 'class') return `${name} is made by a class, and a class has a day of its own. Plan it by itself, or take the class out of its card.`;
    const known = sceneFile(document);
    return `${name}: ${known.ok ? plainProblem(problem, known.file) : problem.message}`;
  });
}

export interface TogetherFinding extends Pick<Finding, 'severity' | 'message' | 'remedy'> {
  /** Whose; null: of all of them. */
  readonly piece: string | null;
}

/** Halts of every piece, what concerns them together, then each one's cautions. Notes stand with each piece. */
export function togetherFindings({ together, plans }: Omit<PlannedTogether, 'scenes'>): TogetherFinding[] {
  const each = (wanted: (finding: Finding) => boolean) => plans.flatMap(({ scene, findings }) => findings.filter(wanted).map(({ severity, message, remedy }): TogetherFinding => ({ severity, message, remedy, piece: scene })));
  const ofAll = together.findings.map(({ severity, message, remedy }): TogetherFinding => ({ severity, message, remedy, piece: null }));
  return [
    ...each(({ severity }) => severity === 'halt'),
    ...ofAll,
    ...each(({ severity }) => severity === 'caution'),
  ];
}
