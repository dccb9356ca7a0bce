/**
 * From a scene's files to all that planning needs: the scene read and checked, every mesh it links to read,
 * inspected and, where it must be, repaired. The same in Node and in the browser.
 */
import type { Finding } from '../core/plan/plan.ts';
import { hasMesh, isMesh, type MeshShape } from '../core/scene/mesh-shape.ts';
import { problemLine, readScene, type Problem } from '../core/scene/read.ts';
import type { MeshUnit, Scene } from '../core/scene/scene.ts';
import { sound } from '../core/solid/mesh-sound.ts';
import type { Booleans, MeshReading } from '../core/solid/solid.ts';
import { parseJson, SceneFileError, type SceneFiles } from './bundle.ts';
import { MeshFileError } from './fail.ts';
import { readMesh } from './mesh/read.ts';

/** Gives the bytes of our own figure library by name, or undefined for a name it doesn't have. */
export interface FigureLibrary {
  readonly names: readonly string[];
  read(name: string): Promise<{ readonly bytes: Uint8Array; readonly file: string } | undefined>;
}

export interface LoadedScene {
  readonly scene: Scene;
  readonly document: unknown;
  /** By the id of the placement or creature. */
  readonly meshes: ReadonlyMap<string, MeshReading>;
  readonly notes: readonly Finding[];
}

export type Loading = { readonly ok: true; readonly loaded: LoadedScene } | { readonly ok: false; readonly problems: readonly Problem[] };

/** Gives what was made of a mesh file before, or makes it. Errors pass through. */
export type ReadingOnce = (file: MeshFile, read: () => MeshReading) => MeshReading;

export interface MeshFile {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly unit?: MeshUnit;
}

/** Reads a scene and its meshes. What can't be read comes back as problems by path; only faults of the program throw. */
export async function loadScene(files: SceneFiles, library: FigureLibrary, booleans: Booleans, once: ReadingOnce = (_, read) => read()): Promise<Loading> {
  let document: unknown;
  try {
    document = parseJson(files.sceneText);
  } catch (error) {
    if (error instanceof SceneFileError) return { ok: false, problems: [{ path: '', message: error.message.replace(/^scene\.json: /, '') }] };
    throw error;
  }
  const reading = readScene(document);
  if (!reading.ok) return reading;
  const meshes = new Map<string, MeshReading>();
  const known = new Map<string, MeshReading>();
  const problems: Problem[] = [];
  const readOnce = (file: MeshFile) => once(file, () => sound(readMesh(file.bytes, file.name, file.unit), booleans));
  for (const { id, shape, path } of meshShapesOf(reading.scene)) {
    const key = JSON.stringify(shape);
    try {
      const mesh = known.get(key) ?? readOnce(await meshFileOf(shape, files, library));
      known.set(key, mesh);
      meshes.set(id, mesh);
    } catch (error) {
      if (!(error instanceof MeshFileError || error instanceof SceneFileError)) throw error;
      problems.push({ path, message: error.message });
    }
  }
  if (problems.length > 0) return { ok: false, problems };
  return { ok: true, loaded: { scene: reading.scene, document, meshes, notes: [...reading.notes, ...missingArt(reading.scene, files)] } };
}

/** Of figures, beds and painted creatures, with the path each stands at. */
function meshShapesOf({ placements, creatures }: Scene): { id: string; shape: MeshShape; path: string }[] {
  return [
    ...placements.flatMap((placement, i) => (hasMesh(placement) ? [{ id: placement.id, shape: placement.shape, path: `placements[${i}].shape` }] : [])),
    ...creatures.flatMap(({ id, shape }, i) => (isMesh(shape) ? [{ id, shape, path: `creatures[${i}].shape` }] : [])),
  ];
}

/** A plane can be poured without its picture, so a missing one is told and refuses nothing. */
function missingArt(scene: Scene, files: SceneFiles): Finding[] {
  return scene.placements.flatMap((plane): Finding[] => {
    if (plane.kind !== 'plane' || !plane.art || isThere(plane.art.file, files)) return [];
    return [
      {
        code: 'art-missing',
        severity: 'note',
        subject: plane.id,
        message: `${plane.name} links to "${plane.art.file}", and there is no such file beside the scene.`,
        remedy: 'Put it there, or choose the picture again.',
      },
    ];
  });
}

function isThere(link: string, files: SceneFiles): boolean {
  try {
    return files.file(link) !== undefined;
  } catch (error) {
    if (error instanceof SceneFileError) return false;
    throw error;
  }
}

/** All problems of a scene as one line, as the command and the page say it. */
export function problemsLine(problems: readonly Problem[]): string {
  return problems.map(problemLine).join(' ').replace(/\s+/g, ' ');
}

async function meshFileOf(shape: MeshShape, files: SceneFiles, library: FigureLibrary): Promise<MeshFile> {
  if (shape.type === 'library') {
    const found = await library.read(shape.name);
    if (!found) throw new SceneFileError(`found "${shape.name}"; expected one of our own figures: ${library.names.join(', ')}.`);
    return { bytes: found.bytes, name: found.file };
  }
  const bytes = files.file(shape.file);
  if (!bytes) throw new SceneFileError(`names "${shape.file}", and there is no such file beside the scene. Put it there, or choose it again.`);
  return { bytes, name: shape.file, unit: shape.unit };
}
