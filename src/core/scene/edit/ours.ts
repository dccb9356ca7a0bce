/** Whether what a file holds for a field is in the form this version uses: what is not is left aside, and no edit may bury it. */
import { setAside } from '../set-aside.ts';
import type { SceneFile } from './file.ts';

export function isOurs(file: SceneFile, field: 'stock' | 'labor' | 'strokes'): boolean {
  return file[field] === undefined || Object.hasOwn(setAside({ [field]: file[field] }).document as object, field);
}
