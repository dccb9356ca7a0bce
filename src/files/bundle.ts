/** A scene with its files as one zip (`.stillpool`): `scene.json` and `assets/…`. */

import { linkFlaw } from '../core/scene/links.ts';
import { grouped, quoted, sceneFail } from './fail.ts';
import { MAX_BUNDLE_BYTES, MAX_SCENE_BYTES, MAX_UNPACKED_BYTES, MAX_ZIP_ENTRIES } from './limits.ts';
import { decodeScene, resolveLink, SCENE_NAME } from './scene-text.ts';
import { looksLikeZip, openZip } from './zip.ts';
import { writeZip, type ZipFile } from './zip-write.ts';

export { SceneFileError } from './fail.ts';
export { decodeScene, parseJson, resolveLink } from './scene-text.ts';

export interface SceneFiles {
  /** The scene's JSON, not parsed yet. */
  readonly sceneText: string;
  /**
   * A file the scene links to, unpacked now; undefined when there is none.
   * Throws SceneFileError for a link that `resolveLink` refuses and for a damaged or oversized file.
   */
  file(path: string): Uint8Array | undefined;
}

/**
 * Opens a `.stillpool`. Only `scene.json` is unpacked; other files are when asked for.
 * Throws SceneFileError for a zip that is damaged, encrypted, ambiguous, out of the limits or holds names that
 * lead out of it.
 */
export function readBundle(bytes: Uint8Array, fileName = 'bundle.stillpool'): SceneFiles {
  const fail = sceneFail(fileName);
  if (!looksLikeZip(bytes)) throw fail(bytes.length === 0 ? 'it is empty' : 'it is not a zip', 'a .stillpool, which is a zip', 'Save the scene again.');
  if (bytes.length > MAX_BUNDLE_BYTES) throw fail(`${grouped(bytes.length)} bytes`, `at most ${grouped(MAX_BUNDLE_BYTES)}`, 'Use smaller meshes and pictures.');
  const zip = openZip(bytes, fail);
  for (const name of zip.names) {
    const flaw = linkFlaw(name);
    if (flaw !== null || resolveLink(name) !== name) {
      throw fail(`an entry named "${quoted(name)}"`, 'plain relative names such as assets/newt.stl', 'Pack it again; do not unpack it by hand.');
    }
  }
  const sceneBytes = zip.size(SCENE_NAME);
  if (sceneBytes === undefined) {
    const inside = zip.names.find((name) => name.endsWith(`/${SCENE_NAME}`));
    throw fail(inside ? `${SCENE_NAME} is inside a folder ("${quoted(inside)}")` : `no ${SCENE_NAME} in it`, `${SCENE_NAME} at the top`, 'Pack the files themselves, not their folder.');
  }
  if (sceneBytes > MAX_SCENE_BYTES) throw fail(`${SCENE_NAME} has ${grouped(sceneBytes)} bytes`, `at most ${grouped(MAX_SCENE_BYTES)}`, 'A scene is far smaller; check where it came from.');
  return { sceneText: decodeScene(zip.read(SCENE_NAME)!, fail), file: (path) => zip.read(resolveLink(path)) };
}

/**
 * Packs a scene with its files. The same input gives the same bytes anywhere: files are sorted by name and dated 1980.
 * Throws SceneFileError for names that can't be links, equal names, and for what `readBundle` would refuse.
 */
export function writeBundle(sceneText: string, files: Iterable<readonly [path: string, bytes: Uint8Array]>): Uint8Array {
  const fail = sceneFail('bundle');
  const byName = new Map<string, Uint8Array>();
  for (const [path, bytes] of files) {
    const name = resolveLink(path);
    if (byName.has(name) || name === SCENE_NAME) throw fail(`two files named "${quoted(name)}"`, 'each name once', 'Rename one of them.');
    byName.set(name, bytes);
  }
  const scene = new TextEncoder().encode(sceneText);
  if (scene.length > MAX_SCENE_BYTES) throw fail(`a scene of ${grouped(scene.length)} bytes`, `at most ${grouped(MAX_SCENE_BYTES)}`, 'Take out what it does not need.');
  const all: ZipFile[] = [{ name: SCENE_NAME, bytes: scene }];
  for (const name of [...byName.keys()].sort()) all.push({ name, bytes: byName.get(name)! });
  const total = all.reduce((sum, file) => sum + file.bytes.length, 0);
  if (total > MAX_UNPACKED_BYTES) throw fail(`${grouped(total)} bytes of files`, `at most ${grouped(MAX_UNPACKED_BYTES)}`, 'Use smaller meshes and pictures.');
  if (all.length > MAX_ZIP_ENTRIES) throw fail(`${grouped(all.length)} files`, `at most ${grouped(MAX_ZIP_ENTRIES)}`, 'Take out what the scene does not use.');
  return writeZip(all);
}
