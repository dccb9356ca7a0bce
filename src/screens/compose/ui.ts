/** What Compose shows besides the piece itself: not saved, not undone. */
import { create } from 'zustand';
import type { SeenFrom } from '../../view/props.ts';

export type Asking = 'figure' | 'plane' | 'bed' | 'new piece';

export interface ComposeUi {
  /** The fill whose top carries the clip while nothing is selected; the last one is the top of the resin. */
  readonly line: number | null;
  /** The formula whose label the card shows. */
  readonly formula: string | null;
  readonly asking: Asking | null;
  readonly outline: boolean;
  readonly seenFrom: SeenFrom;
  /** By hand, since: no word says from where. */
  readonly turned: boolean;
  /** What is dragged comes to rest on lines and whole millimeters; Alt suspends it. */
  readonly snaps: boolean;
  /** Height of the mold when its rim was taken in hand on the gauge, mm. */
  readonly rimFromMm: number | null;
  holdLine(line: number | null): void;
  showFormula(formula: string | null): void;
  ask(asking: Asking | null): void;
  showOutline(outline: boolean): void;
  seeFrom(seenFrom: SeenFrom): void;
  turnedByHand(): void;
  snap(snaps: boolean): void;
  holdRim(fromMm: number | null): void;
  /** Another piece is open: nothing of the last one is held. */
  letGo(): void;
}

export const useComposeUi = create<ComposeUi>()((set) => ({
  line: null,
  formula: null,
  asking: null,
  outline: false,
  seenFrom: 'corner',
  turned: false,
  snaps: true,
  rimFromMm: null,
  holdLine: (line) => set({ line, formula: null }),
  showFormula: (formula) => set({ formula }),
  ask: (asking) => set({ asking }),
  showOutline: (outline) => set({ outline }),
  seeFrom: (seenFrom) => set({ seenFrom, turned: false }),
  turnedByHand: () => set({ turned: true }),
  snap: (snaps) => set({ snaps }),
  holdRim: (rimFromMm) => set({ rimFromMm }),
  letGo: () => set({ line: null, formula: null, rimFromMm: null }),
}));
