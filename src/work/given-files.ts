/** From the files a person dropped together to a scene with its files: a bundle, or a scene with its meshes beside it. */
import { lastPart } from '../core/scene/links.ts';
import { grouped, quoted, sceneFail, SceneFileError } from '../files/fail.ts';
import { MAX_BUNDLE_BYTES, MAX_SCENE_BYTES } from '../files/limits.ts';
import { decodeScene } from '../files/scene-text.ts';
import { openedText } from './opened-text.ts';
import type { GivenFile, OpenedScene } from './protocol.ts';

const EXPECTED = 'one .scene.json or one .stillpool';
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
    const what = files.length === 0 ? 'no file' : files.length === 1 ? quoted(lastPart(files[0].path)) : `${grouped(files.length)} files, none of them a scene`;
    throw new SceneFileError(`Found ${what}; expected ${EXPECTED}. Drop the scene together with the meshes it uses.`);
  }
  if (found.length > 1) throw new SceneFileError(`Found ${grouped(found.length)} scenes (${found.slice(0, 3).map(({ path }) => quoted(lastPart(path))).join(', ')}); expected ${EXPECTED}. Drop one of them.`);
  const scene = found[0];
  const name = lastPart(scene.path);
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
      const sameName = files.filter((file) => lastPart(file.path) === lastPart(path));
      return sameName.length === 1 ? sameName[0].blob : undefined;
    },
  });
}
