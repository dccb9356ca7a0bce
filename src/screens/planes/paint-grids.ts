/** How dense the paint of the piece's pictures is, read from the browser's own drawing of them. */
import { useEffect, useState } from 'react';
import type { PaintGrid } from '../../core/sight/coverage.ts';
import type { ReadyArt } from '../compose/scene-now.ts';

/** Along the longer side. */
const CELLS = 256;

/** By path; a picture that can't be drawn is left out. */
export function usePaintGrids(art: ReadonlyMap<string, ReadyArt>): ReadonlyMap<string, PaintGrid> {
  const [grids, setGrids] = useState<ReadonlyMap<string, PaintGrid>>(new Map());
  useEffect(() => {
    let gone = false;
    void Promise.all([...art].map(async ([path, ready]) => [path, await gridOf(ready)] as const)).then((read) => {
      if (!gone) setGrids(new Map(read.flatMap(([path, grid]) => (grid ? [[path, grid] as const] : []))));
    });
    return () => {
      gone = true;
    };
  }, [art]);
  return grids;
}

async function gridOf({ url, highPerWide }: ReadyArt): Promise<PaintGrid | null> {
  const image = new Image();
  image.src = url;
  try {
    await image.decode();
  } catch {
    return null;
  }
  const across = Math.max(1, Math.round(highPerWide > 1 ? CELLS / highPerWide : CELLS));
  const down = Math.max(1, Math.round(highPerWide > 1 ? CELLS : CELLS * highPerWide));
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [across, down];
  const pen = canvas.getContext('2d', { willReadFrequently: true });
  if (!pen) return null;
  pen.drawImage(image, 0, 0, across, down);
  const { data } = pen.getImageData(0, 0, across, down);
  return { across, down, alpha: Uint8Array.from({ length: across * down }, (_, i) => data[4 * i + 3]) };
}
