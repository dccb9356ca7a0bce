/**
 * Scene files on a disk (Node only): a `.stillpool`, or a `.scene.json` with the files beside it.
 * Nothing outside the scene's folder is read, also not through a symbolic link, and nothing that is not a plain
 * file is opened for long: sizes are known before a byte is read.
 */

import { closeSync, constants, fstatSync, openSync, readSync, realpathSync } from 'node:fs';
import { basename, dirname, join, sep } from 'node:path';
import { decodeScene, readBundle, resolveLink, type SceneFiles } from './bundle.ts';
import { grouped, sceneFail, SceneFileError, type Fail } from './fail.ts';
import { MAX_BUNDLE_BYTES, MAX_MESH_BYTES, MAX_SCENE_BYTES } from './limits.ts';
import { looksLikeZip } from './zip.ts';

export { SceneFileError } from './fail.ts';

/**
 * Opens a scene. What is inside decides: a zip is a `.stillpool`, anything else is scene JSON.
 * Rejects with SceneFileError: missing, a folder, not a plain file, too large, unreadable, not UTF-8, or what
 * `readBundle` refuses.
 */
export async function openSceneFile(path: string): Promise<SceneFiles> {
  const name = basename(path);
  const fail = sceneFail(name);
  const bytes = readPlainFile(path, fail, (start) => (looksLikeZip(start) ? MAX_BUNDLE_BYTES : MAX_SCENE_BYTES));
  if (looksLikeZip(bytes) || /\.stillpool$/i.test(name)) return readBundle(bytes, name);
  const folder = realpathSync(dirname(path));
  return { sceneText: decodeScene(bytes, fail), file: (link) => readBeside(folder, resolveLink(link)) };
}

/** A file under `folder` (a real path) by a resolved link; undefined when there is none. */
function readBeside(folder: string, link: string): Uint8Array | undefined {
  const fail = sceneFail(link);
  let real: string;
  try {
    real = realpathSync(join(folder, link));
  } catch (error) {
    if (codeOf(error) === 'ENOENT' || codeOf(error) === 'ENOTDIR') return undefined;
    throw unreadable(error, fail);
  }
  const inside = folder.endsWith(sep) ? folder : folder + sep;
  if (!real.startsWith(inside)) throw fail('it leads out of the scene\'s folder through a symbolic link', 'a file in that folder', 'Copy the file there.');
  return readPlainFile(real, fail, () => MAX_MESH_BYTES);
}

/** First bytes that tell a zip from text. */
const SNIFFED_BYTES = 4;

/** Reads a file whose size limit depends on how it begins. */
function readPlainFile(path: string, fail: Fail, limitFor: (start: Uint8Array) => number): Uint8Array {
  let handle: number | undefined;
  try {
    // Without O_NONBLOCK, opening a pipe that nobody writes to waits forever.
    handle = openSync(path, constants.O_RDONLY | (constants.O_NONBLOCK ?? 0));
    const stat = fstatSync(handle);
    if (stat.isDirectory()) throw fail('it is a folder', 'a file', 'Name the file inside it.');
    if (!stat.isFile()) throw fail('it is a device or a pipe', 'a plain file', 'Copy it to a file first.');
    const limit = limitFor(readUpTo(handle, Math.min(SNIFFED_BYTES, stat.size)));
    if (stat.size > limit) throw fail(`${grouped(stat.size)} bytes`, `at most ${grouped(limit)}`, 'Use a smaller one.');
    return readUpTo(handle, stat.size);
  } catch (error) {
    throw error instanceof SceneFileError ? error : unreadable(error, fail);
  } finally {
    if (handle !== undefined) closeSync(handle);
  }
}

/** Up to `size` bytes from the start; fewer when the file shrank meanwhile. */
function readUpTo(handle: number, size: number): Uint8Array {
  const bytes = new Uint8Array(size);
  let length = 0;
  while (length < size) {
    const got = readSync(handle, bytes, length, size - length, length);
    if (got === 0) break;
    length += got;
  }
  return bytes.subarray(0, length);
}

function unreadable(error: unknown, fail: Fail): Error {
  const code = codeOf(error);
  if (code === 'ENOENT' || code === 'ENOTDIR') return fail('there is no such file', 'a .scene.json or .stillpool file', 'Check the path.');
  if (code === 'EACCES' || code === 'EPERM') return fail('it may not be read', 'a file you may read', 'Change its permissions.');
  if (code === 'ELOOP') return fail('symbolic links that lead in a circle', 'a file', 'Link to the file itself.');
  if (code === 'EISDIR') return fail('it is a folder', 'a .scene.json or .stillpool file', 'Name the file inside it.');
  return fail(`it can't be read (${code})`, 'a readable file', 'Check the path and the disk.');
}

function codeOf(error: unknown): string {
  const code = error instanceof Error ? (error as NodeJS.ErrnoException).code : undefined;
  return code ?? 'unknown error';
}
