/** Which things a class names. What leaves the piece, by whatever edit, leaves the class with it. */
import type { SceneFile } from './file.ts';
import { patched } from './replace.ts';

/** What students may do, and with what. */
export const STUDENT_THINGS = { paint: 'plane', set: 'figure' } as const;

/** The file itself where its class names nothing that is gone. */
export function withoutGoneInClass(file: SceneFile): SceneFile {
  const does = file.class?.perStudent;
  if (!does?.paint && !does?.set) return file;
  const left = (key: keyof typeof STUDENT_THINGS): readonly string[] | undefined => {
    const there = new Set((file.placements ?? []).flatMap(({ kind, id }) => (kind === STUDENT_THINGS[key] ? [id] : [])));
    const ids = does[key];
    return ids?.every((id) => there.has(id)) ? ids : ids?.filter((id) => there.has(id));
  };
  return patched(file, { class: patched(file.class!, { perStudent: patched(does, { paint: left('paint'), set: left('set') }) }) });
}
