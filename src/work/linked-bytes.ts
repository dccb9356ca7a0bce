/** Files of the piece, read. */
import { resolveLink } from '../files/scene-text.ts';
import type { PieceMeshes } from './piece-meshes.ts';

/** By their links; one that is not there is left out. */
export async function linkedBytes(links: readonly string[], pieces: PieceMeshes): Promise<Map<string, Uint8Array>> {
  const given = new Map<string, Uint8Array>();
  for (const link of links) {
    const file = pieces.file(resolveLink(link));
    if (file) given.set(link, new Uint8Array(await file.blob.arrayBuffer()));
  }
  return given;
}
