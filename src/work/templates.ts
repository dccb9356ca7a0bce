/** The files of a piece's templates, in the worker: its art and its creatures' meshes as the piece holds them. Fetched when it is asked for. */
import { isMesh } from '../core/scene/mesh-shape.ts';
import { TemplateError } from '../core/sheet/template-pages.ts';
import type { MeshReading } from '../core/solid/solid.ts';
import { MeshFileError, SceneFileError } from '../files/fail.ts';
import { templateFiles } from '../files/template-files.ts';
import type { ZipFile } from '../files/zip-write.ts';
import type { Surroundings } from './answers.ts';
import type { PieceMeshes } from './piece-meshes.ts';
import type { RequestOf } from './protocol.ts';

/** Throws SceneFileError where a drawing is too large for paper. */
export async function templatesOf({ planned, paper, units }: RequestOf<'templates'>, around: Surroundings, pieces: PieceMeshes): Promise<ZipFile[]> {
  const { scene, plan } = planned;
  const art = new Map<string, Uint8Array>();
  for (const placement of scene.placements) {
    const file = placement.kind === 'plane' && placement.art && pieces.file(placement.art.file);
    if (file) art.set(file.path, new Uint8Array(await file.blob.arrayBuffer()));
  }
  const meshes = new Map<string, MeshReading>();
  const failed = new Map<string, string>();
  const figures = scene.lamp ? scene.placements.filter((placement) => placement.kind === 'figure') : [];
  for (const { id, shape } of [...scene.creatures, ...figures]) {
    if (!isMesh(shape)) continue;
    try {
      meshes.set(id, await pieces.reading(shape));
    } catch (error) {
      if (!(error instanceof MeshFileError || error instanceof SceneFileError)) throw error;
      failed.set(id, error.message);
    }
  }
  try {
    return await templateFiles({ scene, plan, meshes, failed, paper, units, readFont: around.readFont, regions: await around.regions(), file: (path) => art.get(path) });
  } catch (error) {
    throw error instanceof TemplateError ? new SceneFileError(error.message) : error;
  }
}
