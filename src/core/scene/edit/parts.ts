/** Edits of the scene's parts that are lists of settings: any field may be left out, and so may the part. */
import { done, type BenchFile, type EditResult, type PlanFile, type RoomFile, type SceneFile } from './file.ts';
import { patched, type Patch } from './replace.ts';

interface Parts {
  readonly room?: Patch<RoomFile>;
  readonly bench?: Patch<BenchFile>;
  readonly plan?: Patch<PlanFile>;
  readonly heat?: Patch<NonNullable<SceneFile['heat']>>;
}

/** Sets fields of parts, `{ room: { humidity: 60 } }`; one set to `undefined` is taken out. Label and subject as in `done`. */
export function withParts(file: SceneFile, parts: Parts, label: string, subject?: string): EditResult {
  const changed = (Object.keys(parts) as (keyof Parts)[]).map((part) => [part, patched<object>(file[part] ?? {}, parts[part]!)]);
  return done(patched(file, Object.fromEntries(changed)), label, subject);
}
