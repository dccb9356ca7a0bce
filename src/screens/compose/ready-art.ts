/** The piece's pictures as the mold view takes them: an address in memory, and their proportions once they are read. */
import { useEffect, useState } from 'react';
import type { ReadyArt } from './scene-now.ts';

const PICTURE = /\.(png|jpe?g|webp|svg)$/i;

/** By path. Addresses live as long as their file is in the piece. */
export function useReadyArt(files: ReadonlyMap<string, Blob>): ReadonlyMap<string, ReadyArt> {
  const [ready, setReady] = useState<ReadonlyMap<string, ReadyArt>>(new Map());
  useEffect(() => {
    let gone = false;
    const urls: string[] = [];
    const pictures = [...files].filter(([path]) => PICTURE.test(path));
    void Promise.all(
      pictures.map(async ([path, blob]) => {
        const picture = await shown(path, blob).catch(() => null);
        if (gone || picture === null) return [];
        const url = URL.createObjectURL(picture);
        urls.push(url);
        const highPerWide = await proportions(url);
        return highPerWide === null ? [] : [[path, { url, highPerWide }] as const];
      }),
    ).then((read) => {
      if (!gone) setReady(new Map(read.flat()));
    });
    return () => {
      gone = true;
      for (const url of urls) URL.revokeObjectURL(url);
    };
  }, [files]);
  return ready;
}

/** Whether the browser can make a picture of these bytes. */
export async function canBeShown(path: string, blob: Blob): Promise<boolean> {
  const url = URL.createObjectURL(await shown(path, blob));
  const highPerWide = await proportions(url);
  URL.revokeObjectURL(url);
  return highPerWide !== null;
}

/**
 * A drawing that came with a scene is cleaned like one that is put on by hand, and gets the type that files out of a
 * zip have not: without it a browser shows no SVG. Its bytes in the piece stay as they came.
 */
async function shown(path: string, blob: Blob): Promise<Blob> {
  if (!/\.svg$/i.test(path)) return blob;
  const made = cleaned.get(blob) ?? cleanDrawing(blob);
  cleaned.set(blob, made);
  // The cleaning may not have come: the next look asks for it again.
  made.catch(() => cleaned.delete(blob));
  return made;
}

async function cleanDrawing(blob: Blob): Promise<Blob> {
  const [text, { cleanSvg }] = await Promise.all([blob.text(), import('../card/svg-clean.ts')]);
  return new Blob([cleanSvg(text)], { type: 'image/svg+xml' });
}

/** By the bytes they came as: several parts of the page show the same drawing. */
const cleaned = new WeakMap<Blob, Promise<Blob>>();

/** Height over width; null of what is no picture. An SVG without a size is square. */
async function proportions(url: string): Promise<number | null> {
  const picture = new Image();
  picture.src = url;
  try {
    await picture.decode();
  } catch {
    return null;
  }
  return picture.naturalWidth > 0 ? picture.naturalHeight / picture.naturalWidth : 1;
}
