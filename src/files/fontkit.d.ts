/** What the sheet uses of fontkit 2, which ships no types of its own. */
declare module 'fontkit' {
  export interface Glyph {
    readonly id: number;
    readonly codePoints: number[];
    readonly advanceWidth: number;
    readonly path: { toSVG(): string; readonly commands: readonly { readonly command: string; readonly args: readonly number[] }[] };
  }
  export interface GlyphPosition {
    readonly xAdvance: number;
    readonly xOffset: number;
  }
  export interface GlyphRun {
    readonly glyphs: Glyph[];
    readonly positions: readonly GlyphPosition[];
  }
  export interface Font {
    readonly postscriptName: string;
    readonly unitsPerEm: number;
    layout(text: string, features?: Record<string, boolean>): GlyphRun;
    hasGlyphForCodePoint(codePoint: number): boolean;
  }
  export function create(bytes: Uint8Array, postscriptName?: string): Font;
}
