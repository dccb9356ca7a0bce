/**
 * A scene's text and its links, without the zip they may come in: a page that opens none need not fetch its code.
 * What a scene links to is found by `resolveLink`, the one gate between a path in a file and a file.
 */

import { linkFlaw, normalLink } from '../core/scene/links.ts';
import { quoted, sceneFail, SceneFileError, type Fail } from './fail.ts';
import { parseStrictJson } from './json.ts';

export const SCENE_NAME = 'scene.json';

/**
 * The one spelling of a relative link: parts joined by `/`, no `.`, no empty part.
 * Throws SceneFileError for URLs, absolute paths, drive letters, backslashes, `..`, NUL and the empty link.
 */
export function resolveLink(path: string): string {
  const flaw = linkFlaw(path);
  if (flaw !== null) throw new SceneFileError(`The link "${quoted(path)}" ${flaw}; expected a file in the scene's own folder, such as assets/newt.stl. Copy the file there and link to that.`);
  return normalLink(path);
}

/** JSON with line and column in every refusal; equal keys and depths over 100 are refused. Throws SceneFileError. */
export function parseJson(text: string): unknown {
  return parseStrictJson(text, sceneFail(SCENE_NAME));
}

/** Scene bytes to text; a byte order mark is dropped. */
export function decodeScene(bytes: Uint8Array, fail: Fail): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    throw fail('the scene is not UTF-8 text', 'UTF-8', 'Save it again as UTF-8.');
  }
}
