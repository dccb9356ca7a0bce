/** The colors that creatures bring in their files, read only where a file may have some. */
import type { Creature, MeshUnit } from '../core/scene/scene.ts';
import type { CreatureColors } from '../core/sight/colors/brought.ts';
import type { ColoredMesh } from '../core/sight/colors/colored-mesh.ts';
import { MeshFileError, SceneFileError } from './fail.ts';
import { mayHaveColors } from './mesh/color/may-have.ts';

type FileOf = (path: string) => Uint8Array | undefined | Promise<Uint8Array | undefined>;

/** `file`: a file the scene links to. Whatever is wrong with one is told and stops nothing. */
export async function creatureColors(creatures: readonly Pick<Creature, 'id' | 'shape'>[], file: FileOf): Promise<CreatureColors> {
  const found = new Map<string, ColoredMesh | string>();
  const known = new Map<string, ColoredMesh | string | null>();
  for (const { id, shape } of creatures) {
    if (shape.type !== 'mesh' || !mayHaveColors(shape.file)) continue;
    const key = JSON.stringify(shape);
    if (!known.has(key)) known.set(key, await fileColors(shape, () => file(shape.file)));
    const colors = known.get(key);
    if (colors) found.set(id, colors);
  }
  return found;
}

/** The colors of one file, why they can't be read, or null where it has none or is missing, of which the plain mesh tells. */
export async function fileColors({ file, unit }: { readonly file: string; readonly unit?: MeshUnit }, bytesOf: () => Uint8Array | undefined | Promise<Uint8Array | undefined>): Promise<ColoredMesh | string | null> {
  try {
    const bytes = await bytesOf();
    return bytes ? (await import('./mesh/color/read.ts')).readMeshColors(bytes, file, unit) : null;
  } catch (error) {
    if (error instanceof MeshFileError || error instanceof SceneFileError) return error.message;
    throw error;
  }
}
