/** From the files a person dropped together to a scene with its files: a bundle, or a scene with its meshes beside it. */
import { grouped, quoted, sceneFail, SceneFileError } from '../files/fail.ts';
import { MAX_BUNDLE_BYTES, MAX_SCENE_BYTES } from '../files/limits.ts';
import { decodeScene, parseJson, resolveLink } from '../files/scene-text.ts';
import { linksOf, type SceneLink } from './links.ts';
import type { GivenFile, OpenedScene } from './protocol.ts';

const EXPECTED = 'one .scene.json or one .stillpool';
/** Missing files named one by one before the rest is counted. */
const MISSING_SHOWN = 6;

/**
 * Throws SceneFileError: no scene or several among them, a mesh that is not there, and what `readBundle` refuses. A link
 * is found by its whole path below the scene's folder or, because a drop may carry names without folders, by its last
 * part where only one file has it. Files that nothing links to are not read.
 */
export async function openedFrom(files: readonly GivenFile[]): Promise<OpenedScene> {
  const bundles = files.filter(({ path }) => /\.(stillpool|zip)$/i.test(path));
  const named = files.filter(({ path }) => /\.scene\.json$/i.test(path));
  const scenes = named.length > 0 ? named : files.filter(({ path }) => /\.json$/i.test(path));
  const found = [...bundles, ...scenes];
  if (found.length === 0) {
    const what = files.length === 0 ? 'no file' : files.length === 1 ? quoted(nameOf(files[0].path)) : `${grouped(files.length)} files, none of them a scene`;
    throw new SceneFileError(`Found ${what}; expected ${EXPECTED}. Drop the scene together with the meshes it uses.`);
  }
  if (found.length > 1) throw new SceneFileError(`Found ${grouped(found.length)} scenes (${found.slice(0, 3).map(({ path }) => quoted(nameOf(path))).join(', ')}); expected ${EXPECTED}. Drop one of them.`);
  const scene = found[0];
  const name = nameOf(scene.path);
  const limit = bundles.length === 1 ? MAX_BUNDLE_BYTES : MAX_SCENE_BYTES;
  const fail = sceneFail(name);
  if (scene.blob.size > limit) throw fail(`${grouped(scene.blob.size)} bytes`, `at most ${grouped(limit)}`, 'A scene is far smaller; check where it came from.');
  const bytes = new Uint8Array(await scene.blob.arrayBuffer());
  if (bundles.length === 1) {
    const { readBundle } = await import('../files/bundle.ts');
    const bundle = readBundle(bytes, name);
    return openedText(bundle.sceneText, {
      get(link) {
        const packed = bundle.file(link);
        return packed && new Blob([packed as Uint8Array<ArrayBuffer>]);
      },
    });
  }
  const folder = scene.path.slice(0, scene.path.lastIndexOf('/') + 1);
  return openedText(decodeScene(bytes, fail), {
    get(path) {
      const exact = files.find((file) => file.path === folder + path);
      if (exact) return exact.blob;
      const sameName = files.filter((file) => nameOf(file.path) === nameOf(path));
      return sameName.length === 1 ? sameName[0].blob : undefined;
    },
  });
}

/** A scene's text with what it links to; meshes must be there, pictures are named where they are not. */
export function openedText(sceneText: string, from: { get(path: string): Blob | undefined }): OpenedScene {
  const document = parseJson(sceneText);
  const files = new Map<string, Blob>();
  const absent: SceneLink[] = [];
  for (const link of linksOf(document)) {
    const path = resolveLink(link.path);
    if (files.has(path)) continue;
    const blob = from.get(path);
    if (blob) files.set(path, blob);
    else absent.push({ ...link, path });
  }
  const meshes = [...new Set(absent.filter(({ kind }) => kind === 'mesh').map(({ path }) => path))];
  if (meshes.length > 0) {
    const more = meshes.length > MISSING_SHOWN ? ` and ${grouped(meshes.length - MISSING_SHOWN)} more` : '';
    const them = meshes.length === 1 ? 'it' : 'them';
    throw new SceneFileError(`The scene uses ${meshes.slice(0, MISSING_SHOWN).map((path) => `"${quoted(path)}"`).join(', ')}${more}, and there is no such file beside the scene. Drop the scene together with ${them}, or drop the whole folder.`);
  }
  return { document, files, missing: [...new Set(absent.map(({ path }) => path))] };
}

const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);
