/** The files of a piece's templates, in the worker: its art and its creatures' meshes as the piece holds them. Fetched when it is asked for. */
import { TemplateError } from '../core/sheet/template-pages.ts';
import { SceneFileError } from '../files/fail.ts';
import { mayHaveColors } from '../files/mesh/color/may-have.ts';
import { templateFiles } from '../files/template-files.ts';
import type { ZipFile } from '../files/zip-write.ts';
import type { Surroundings } from './answers.ts';
import { linkedBytes } from './linked-bytes.ts';
import type { PieceMeshes } from './piece-meshes.ts';
import type { RequestOf } from './protocol.ts';

/** Throws SceneFileError where a drawing is too large for paper. */
export async function templatesOf({ planned, paper, units }: RequestOf<'templates'>, around: Surroundings, pieces: PieceMeshes): Promise<ZipFile[]> {
  const { scene, plan } = planned;
  const given = await linkedBytes([
    ...scene.placements.flatMap((placement) => (placement.kind === 'plane' && placement.art ? [placement.art.file] : [])),
    ...scene.creatures.flatMap(({ shape }) => (shape.type === 'mesh' && mayHaveColors(shape.file) ? [shape.file] : [])),
  ], pieces);
  const figures = scene.lamp ? scene.placements.filter((placement) => placement.kind === 'figure') : [];
  const { meshes, failed } = await pieces.readings([...scene.creatures, ...figures]);
  try {
    return await templateFiles({ scene, plan, meshes, failed, paper, units, readFont: around.readFont, regions: await around.regions(), file: (path) => given.get(path) });
  } catch (error) {
    throw error instanceof TemplateError ? new SceneFileError(error.message) : error;
  }
}
