/** What of the plane is seen, and how large: between mm of the mold and px of the board. Pure. */

export interface SightWindow {
  /** px a millimeter. */
  readonly scale: number;
  /** What is in the middle of the board: mm right and mm up as it is looked at. */
  readonly rightMm: number;
  readonly upMm: number;
}

export interface BoardSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** px left free round the whole plane. */
const MARGIN_PX = 20;
/** Against the whole plane: how small and how large it may be looked at. */
const LEAST = 0.5;
const MOST = 40;

/** The whole plane in the middle. */
export function whole({ widthPx, heightPx }: BoardSize, [halfX, halfY]: readonly [number, number]): SightWindow {
  const room = (px: number): number => Math.max(1, px - 2 * MARGIN_PX);
  return { scale: Math.min(room(widthPx) / (2 * halfX), room(heightPx) / (2 * halfY)), rightMm: 0, upMm: 0 };
}

/** Larger by a factor, what lies under a px staying there. `full` is the whole plane's scale. */
export function zoomedAbout(window: SightWindow, by: number, at: readonly [number, number], { size, full }: { readonly size: BoardSize; readonly full: number }): SightWindow {
  const scale = Math.min(MOST * full, Math.max(LEAST * full, window.scale * by));
  const [dx, dy] = [at[0] - size.widthPx / 2, at[1] - size.heightPx / 2];
  const shift = 1 / window.scale - 1 / scale;
  return { scale, rightMm: window.rightMm + dx * shift, upMm: window.upMm - dy * shift };
}

/** What was under a px is now by so many px farther right and down. */
export function shifted(window: SightWindow, dxPx: number, dyPx: number): SightWindow {
  return { ...window, rightMm: window.rightMm - dxPx / window.scale, upMm: window.upMm + dyPx / window.scale };
}

/** x and y in the mold of a px; `mirrored`: seen through the floor, left and right turned round. */
export function moldAt({ scale, rightMm, upMm }: SightWindow, [px, py]: readonly [number, number], { size, mirrored }: { readonly size: BoardSize; readonly mirrored: boolean }): [number, number] {
  const right = rightMm + (px - size.widthPx / 2) / scale;
  return [mirrored ? -right : right, upMm - (py - size.heightPx / 2) / scale];
}

/** The canvas transform that draws mm of the mold: a, b, c, d, e, f. `dpr`: px of the screen a px of the page. */
export function transformOf({ scale, rightMm, upMm }: SightWindow, { size, mirrored, dpr }: { readonly size: BoardSize; readonly mirrored: boolean; readonly dpr: number }): [number, number, number, number, number, number] {
  return [(mirrored ? -1 : 1) * dpr * scale, 0, 0, -dpr * scale, dpr * (size.widthPx / 2 - scale * rightMm), dpr * (size.heightPx / 2 + scale * upMm)];
}

/** How what was drawn through one window is to be moved and stretched to lie as through another, for a style sheet; its corner stays its origin. */
export function stretchOf(drawn: SightWindow, now: SightWindow, { widthPx, heightPx }: BoardSize): string {
  const by = now.scale / drawn.scale;
  const right = (widthPx / 2) * (1 - by) + now.scale * (drawn.rightMm - now.rightMm);
  const down = (heightPx / 2) * (1 - by) - now.scale * (drawn.upMm - now.upMm);
  return `matrix(${by}, 0, 0, ${by}, ${right}, ${down})`;
}
