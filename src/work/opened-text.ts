/** From a scene's text to its document with the files it links to. */
import { quoted, grouped, SceneFileError } from '../files/fail.ts';
import { parseJson, resolveLink } from '../files/scene-text.ts';
import { linksOf, type SceneLink } from '../files/links.ts';
import type { OpenedScene } from './protocol.ts';

/** Missing files named one by one before the rest is counted. */
const MISSING_SHOWN = 6;

/** Meshes must be there, pictures are named where they are not. */
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
