/** Reading one thing of a scene file: its name, height, hold, lock, and how an undo label speaks of it. */
import { listed, plain } from '../../units/format.ts';
import type { Hold } from '../scene.ts';
import { STOP_TOLERANCE_MM } from '../tolerance.ts';
import { usualHold } from '../usual-hold.ts';
import { patched } from './replace.ts';
import type { PlacementFile, SceneFile } from './file.ts';

/** What is stored after arithmetic, decimals of a millimeter: far below a bench, and 1/64 in (0.396875) keeps its digits. */
const STORED_DECIMALS = 6;

/** A computed length without the noise of sums; no minus zero. NaN stays NaN, for the reading to refuse. */
export function tidy(value: number): number {
  return Number(value.toFixed(STORED_DECIMALS)) + 0;
}

export function thingsOf(file: SceneFile): readonly PlacementFile[] {
  return file.placements ?? [];
}

export function thing(file: SceneFile, id: string): PlacementFile | undefined {
  return thingsOf(file).find((placement) => placement.id === id);
}

export function nameOf(placement: { readonly id: string; readonly name?: string }): string {
  return placement.name ?? placement.id;
}

/** A name inside a sentence: `Water lily` is `water lily`, `LED ring` stays. */
export function spoken(name: string): string {
  return /^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name;
}

/** `newt`, `newt and rock`, `4 things`. */
export function spokenAll(placements: readonly PlacementFile[]): string {
  return placements.length > 2 ? `${placements.length} things` : listed(placements.map((placement) => spoken(nameOf(placement))));
}

/** Millimeters in an undo label, to a hundredth: `2 mm`. */
export function labelMm(value: number): string {
  return `${plain(value, 2)}\u00a0mm`;
}

/** Where a thing's lowest point, or a plane, is; mm up from the mold floor. */
export function heightOf(placement: PlacementFile): number {
  return placement.kind === 'plane' ? placement.atMm : (placement.baseMm ?? 0);
}

export function atHeight(placement: PlacementFile, mm: number): PlacementFile {
  return placement.kind === 'plane' ? patched(placement, { atMm: mm }) : patched(placement, { baseMm: mm });
}

/** How a thing is held: as chosen, else by the rule of a scene that says nothing. A plane has none. */
export function holdOf(placement: PlacementFile): Hold | null {
  if (placement.kind === 'plane') return null;
  return placement.hold ?? usualHold(placement.kind, heightOf(placement));
}

export function isLocked(placement: PlacementFile): boolean {
  return placement.locked === true;
}

/** Whether pouring stops where this thing is. */
export function makesStop(placement: PlacementFile): boolean {
  return placement.kind === 'plane' || (holdOf(placement) === 'rests' && heightOf(placement) > STOP_TOLERANCE_MM);
}

export type Chosen = { readonly ok: true; readonly chosen: readonly PlacementFile[] } | { readonly ok: false; readonly reason: string };

/** The things with these ids that may be moved; refused where none is there or all are locked. */
export function unlocked(file: SceneFile, ids: readonly string[]): Chosen {
  const wanted = new Set(ids);
  const found = thingsOf(file).filter((placement) => wanted.has(placement.id));
  if (found.length === 0) return { ok: false, reason: 'Nothing is chosen. Choose one or more things first.' };
  const chosen = found.filter((placement) => !isLocked(placement));
  if (chosen.length > 0) return { ok: true, chosen };
  return { ok: false, reason: found.length === 1 ? `${nameOf(found[0])} is locked. Unlock it first.` : 'All of these are locked. Unlock them first.' };
}

/** The file with some things changed. */
export function withThings(file: SceneFile, change: (placement: PlacementFile) => PlacementFile): SceneFile {
  const before = thingsOf(file);
  const after = before.map(change);
  return after.some((placement, i) => placement !== before[i]) ? { ...file, placements: after } : file;
}
