/** What the sketch is drawn with, kept while the page is open: a brush or an eraser, one of five inks, a width. */
import { create } from 'zustand';

/** Earth colors that any paint box has; words tell them apart, not color alone. */
export const INKS = [
  { ink: '#1c292d', words: 'ink' },
  { ink: '#47683f', words: 'moss' },
  { ink: '#9c4a2b', words: 'rust' },
  { ink: '#c9a253', words: 'ocher' },
  { ink: '#f6f3ea', words: 'white' },
] as const;

/** mm, at full pressure. */
export const WIDTHS_MM = [0.5, 1, 2, 4, 8] as const;
/** Share of its width over which a brush fades out on either side (common practice, no source). */
const SOFT_SHARE = 0.25;

export type Tool = 'brush' | 'eraser';

interface SketchUi {
  readonly tool: Tool;
  readonly ink: string;
  readonly widthMm: number;
  set(change: Partial<Pick<SketchUi, 'tool' | 'ink' | 'widthMm'>>): void;
}

export const useSketchUi = create<SketchUi>()((set) => ({ tool: 'brush', ink: INKS[0].ink, widthMm: 2, set }));

export function softOf(widthMm: number): number {
  return Number((widthMm * SOFT_SHARE).toFixed(2));
}

/** `rust`; of a file's own inks, how they are written. */
export function inkWords(ink: string): string {
  return INKS.find((one) => one.ink === ink.toLowerCase())?.words ?? ink;
}
