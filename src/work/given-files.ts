/** From the files a person dropped together to a scene's files: a bundle, or a scene with its meshes beside it. */
import { decodeScene, readBundle, resolveLink, SceneFileError, type SceneFiles } from '../files/bundle.ts';
import { grouped, quoted, sceneFail } from '../files/fail.ts';
import { MAX_SCENE_BYTES } from '../files/limits.ts';
import { looksLikeZip } from '../files/zip.ts';
import type { GivenFile } from './protocol.ts';

const EXPECTED = 'one .scene.json or one .stillpool';

/**
 * Throws SceneFileError: no scene or several among them, and what `readBundle` refuses. A link is found by its whole
 * path below the scene's folder or, because a drop carries names without folders, by its last part where only one file has it.
 */
export function filesGiven(files: readonly GivenFile[]): SceneFiles {
  const bundles = files.filter(({ path, bytes }) => /\.stillpool$/i.test(path) || (/\.(zip)$/i.test(path) && looksLikeZip(bytes)));
  const named = files.filter(({ path }) => /\.scene\.json$/i.test(path));
  const scenes = named.length > 0 ? named : files.filter(({ path }) => /\.json$/i.test(path));
  const found = [...bundles, ...scenes];
  if (found.length === 0) {
    const what = files.length === 0 ? 'no file' : files.length === 1 ? quoted(nameOf(files[0].path)) : `${grouped(files.length)} files, none of them a scene`;
    throw new SceneFileError(`Found ${what}; expected ${EXPECTED}. Drop the scene together with the meshes it uses.`);
  }
  if (found.length > 1) throw new SceneFileError(`Found ${grouped(found.length)} scenes (${found.slice(0, 3).map(({ path }) => quoted(nameOf(path))).join(', ')}); expected ${EXPECTED}. Drop one of them.`);
  const scene = found[0];
  if (bundles.length === 1) return readBundle(scene.bytes, nameOf(scene.path));
  const fail = sceneFail(nameOf(scene.path));
  if (scene.bytes.length > MAX_SCENE_BYTES) throw fail(`${grouped(scene.bytes.length)} bytes`, `at most ${grouped(MAX_SCENE_BYTES)}`, 'A scene is far smaller; check where it came from.');
  const folder = scene.path.slice(0, scene.path.lastIndexOf('/') + 1);
  return {
    sceneText: decodeScene(scene.bytes, fail),
    file(link) {
      const path = resolveLink(link);
      const exact = files.find((file) => file.path === folder + path);
      if (exact) return exact.bytes;
      const sameName = files.filter((file) => nameOf(file.path) === nameOf(path));
      return sameName.length === 1 ? sameName[0].bytes : undefined;
    },
  };
}

const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);
