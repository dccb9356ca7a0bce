/** Files that come into a piece: their names there, and copies that outlive the file on the disk. */
import { lastPart } from '../core/scene/links.ts';

/** As `readMesh` knows them; its module, with every reader in it, belongs to the worker. */
const MESH_ENDINGS = ['stl', 'obj', 'ply', 'glb', 'gltf', '3mf'];

const PICTURE_ENDINGS = ['png', 'jpg', 'jpeg', 'webp', 'svg'];
const FOLDER = 'assets/';

export const isMesh = (name: string): boolean => MESH_ENDINGS.includes(endingOf(name));
export const isPicture = (name: string): boolean => PICTURE_ENDINGS.includes(endingOf(name));
export const isScene = (name: string): boolean => ['json', 'stillpool', 'zip'].includes(endingOf(name));

/** `assets/newt.stl`, or `assets/newt-2.stl` where that is taken; letters that a link may not have are left out. */
export function addedPath(name: string, files: ReadonlyMap<string, Blob>): string {
  const ending = endingOf(name);
  const base = lastPart(name).replace(/\.[^.]*$/, '').replace(/[^\p{L}\p{N} ._-]+/gu, '').replace(/^[. ]+|[. ]+$/g, '').slice(0, 80) || 'file';
  for (let n = 1; ; n++) {
    const path = `${FOLDER}${base}${n > 1 ? `-${n}` : ''}.${ending}`;
    if (!files.has(path)) return path;
  }
}

/** Bytes copied in one go: a few ms of the page's thread. */
const A_PART_BYTES = 4 * 2 ** 20;

export interface CopyOptions {
  readonly signal?: AbortSignal;
  /** Told before each part which share is done. */
  readonly onShare?: (share: number) => void;
}

/**
 * A picked file is read anew from the disk each time, where it may have changed; this stays. Copied part by part, so that
 * the page goes on meanwhile. Rejects when the file can't be read, or with the signal's reason.
 */
export async function copied(blob: Blob, { signal, onShare }: CopyOptions = {}): Promise<Blob> {
  const parts: Blob[] = [];
  for (let at = 0; at < blob.size; at += A_PART_BYTES) {
    onShare?.(at / blob.size);
    parts.push(new Blob([await blob.slice(at, at + A_PART_BYTES).arrayBuffer()]));
    signal?.throwIfAborted();
  }
  return new Blob(parts, { type: blob.type });
}

function endingOf(name: string): string {
  return /\.([^./\\]+)$/.exec(name)?.[1].toLowerCase() ?? '';
}
