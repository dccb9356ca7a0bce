/** `--what-if`: changes tried on the scene, each with the difference it makes to the plan. */
import { sceneFile, type SceneFile } from '../core/scene/edit/file.ts';
import { readTrials } from '../core/plan/what-if-text.ts';
import { whatIf, type Trial, type Trying, type WhatIf } from '../core/plan/what-if.ts';
import type { PlannedPiece } from '../core/plan/what-if-sentence.ts';
import { Refusal } from './refusal.ts';

export interface Asked {
  readonly change: string;
  readonly trials: readonly Trial[];
}

/** What was asked, of a scene that has been read. @throws Refusal. */
export function askedOf(texts: readonly string[], document: unknown): { readonly file: SceneFile; readonly asked: readonly Asked[] } {
  const read = sceneFile(document);
  if (!read.ok) throw new Refusal('--what-if: the scene can’t be changed.');
  const asked = texts.map((change) => {
    const trials = readTrials(change, read.file);
    if (!trials.ok) throw new Refusal(`--what-if: ${trials.reason}`);
    return { change, trials: trials.trials };
  });
  return { file: read.file, asked };
}

/** @throws Refusal where a change can't be made, such as a formula that nobody knows. */
export function answersOf({ file, asked }: ReturnType<typeof askedOf>, before: PlannedPiece, plan: Trying['plan']): WhatIf[] {
  return asked.map(({ change, trials }) => {
    const result = whatIf(file, before, { change, trials, plan });
    if (!result.ok) throw new Refusal(`--what-if "${change}": ${result.reason}`);
    return result.answer;
  });
}

/** For a terminal. */
export function whatIfText(answers: readonly WhatIf[]): string {
  return `\nWhat if\n${answers.map(({ sentence }) => `  ${sentence}\n`).join('')}`.replace(/\u00a0/g, ' ');
}
