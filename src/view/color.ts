/** Colors as the page has them: sRGB, 0 to 1, mixed as they look. The view never converts them. */

export type Rgb = readonly [number, number, number];

/** Of `#rrggbb`. Anything else is a fault of the caller and comes out as mid gray. */
export function rgbOf(hex: string): Rgb {
  const value = /^#[0-9a-f]{6}$/i.test(hex) ? parseInt(hex.slice(1), 16) : 0x808080;
  return [(value >> 16) / 255, ((value >> 8) & 255) / 255, (value & 255) / 255];
}

export function mixed(a: Rgb, b: Rgb, share: number): Rgb {
  return [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share, a[2] + (b[2] - a[2]) * share];
}

/** Relative luminance is not needed here: whether paper is dark is told by its plain mean. */
export function isDark(paper: Rgb): boolean {
  return (paper[0] + paper[1] + paper[2]) / 3 < 0.5;
}
