/** How a thing is held, and what the object itself is like: heat it stands, pores, seal. */
import type { Hold } from '../scene.ts';
import { done, refused, type EditResult, type PlacementFile, type SceneFile } from './file.ts';
import { patched } from './replace.ts';
import { nameOf, spoken, spokenAll, thing, thingsOf, withThings } from './things.ts';

const HOLD_WORDS: Readonly<Record<Hold, string>> = {
  rests: 'set on the poured surface',
  stands: 'standing loose',
  fixed: 'fastened',
  rod: 'on a rod',
  thread: 'on a thread',
};

/** Chooses how things are held; `null` leaves it to the rule again: resting above the floor, standing on it, beds fixed. */
export function setHold(file: SceneFile, ids: readonly string[], hold: Hold | null): EditResult {
  const wanted = new Set(ids);
  const solids = thingsOf(file).filter((placement) => wanted.has(placement.id) && placement.kind !== 'plane');
  if (solids.length === 0) return refused('Only figures and beds are held. Choose one.');
  const chosen = new Set(solids);
  const held = withThings(file, (placement) => (chosen.has(placement) && placement.kind !== 'plane' ? patched(placement, { hold: hold ?? undefined }) : placement));
  return done(held, `${spokenAll(solids)} ${hold === null ? 'held as usual' : HOLD_WORDS[hold]}`, 'how it is held');
}

/** `null` takes the value out again. */
export interface Nature {
  /** The hottest the object may get, °C. */
  readonly limitC?: number | null;
  readonly porous?: boolean | null;
  readonly sealed?: boolean | null;
  /** Beds only: the share of the bed that drinks resin. */
  readonly voidFraction?: number | null;
}

export function setNature(file: SceneFile, id: string, nature: Nature): EditResult {
  const placement = thing(file, id);
  if (!placement) return refused('That thing is no longer there.');
  if (placement.kind === 'plane') return refused('A painted plane has no such value.');
  if (placement.kind === 'figure' && nature.voidFraction !== undefined) return refused('Only a bed drinks resin.');
  const patch = Object.fromEntries(Object.entries(nature).map(([key, value]) => [key, value ?? undefined]));
  const name = nameOf(placement);
  return done(withThings(file, (each) => (each === placement ? (patched(each, patch) as PlacementFile) : each)), `${spoken(name)} described`, name);
}

/** What a plane takes until someone says otherwise, clock hours (the scene file's defaults). */
export const USUAL_PAINT_H = 3;
export const USUAL_DRY_H = 12;

/** Painting and drying time of planes, clock hours; `null` goes back to the usual. */
export function setPlaneHours(file: SceneFile, ids: readonly string[], hours: { readonly paintH?: number | null; readonly dryH?: number | null }): EditResult {
  const wanted = new Set(ids);
  const planes = thingsOf(file).filter((placement) => wanted.has(placement.id) && placement.kind === 'plane');
  if (planes.length === 0) return refused('Only planes are painted and dry. Choose one.');
  const chosen = new Set(planes);
  const patch = Object.fromEntries(Object.entries(hours).map(([key, value]) => [key, value ?? undefined]));
  const set = withThings(file, (placement) => (chosen.has(placement) ? (patched(placement, patch) as PlacementFile) : placement));
  return done(set, `${spokenAll(planes)}: painting and drying`, 'painting and drying');
}
