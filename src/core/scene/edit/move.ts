/**
 * Moving things: up and down, over the floor, turned, made larger. Several at once move as one: where one of them
 * meets its limit the others stop with it. How a thing is held follows its height unless the person chose it
 * (a file that says no `hold` is read as resting above the floor and standing on it), so nothing is set here for it.
 */
import { LIMITS } from '../schema.ts';
import { STOP_TOLERANCE_MM } from '../tolerance.ts';
import { plain } from '../../units/format.ts';
import { done, refused, type EditResult, type PlacementFile, type SceneFile } from './file.ts';
import { patched } from './replace.ts';
import { atHeight, heightOf, holdOf, isLocked, labelMm, nameOf, spoken, spokenAll, thing, thingsOf, tidy, unlocked, withThings } from './things.ts';

export interface MoveOptions {
  /** Figures that rest on a moved plane go with it. */
  readonly riders?: boolean;
}

export interface HeightRange {
  readonly minMm: number;
  readonly maxMm: number;
}

/**
 * How low and how high a thing may go, mm up: planes and figures from the floor to the top, beds also below the floor
 * (they are cut there). What already lies outside may stay.
 */
export function heightRange(file: SceneFile, placement: PlacementFile): HeightRange {
  const now = heightOf(placement);
  const lowest = placement.kind === 'bed' ? -LIMITS.lengthMm : 0;
  return { minMm: Math.min(lowest, now), maxMm: Math.max(file.fillMm, now) };
}

/** Ids of the unlocked figures that rest on a plane. */
export function ridersOf(file: SceneFile, planeId: string): readonly string[] {
  const plane = thing(file, planeId);
  if (plane?.kind !== 'plane') return [];
  return thingsOf(file)
    .filter((placement) => placement.kind === 'figure' && holdOf(placement) === 'rests' && !isLocked(placement))
    .filter((figure) => Math.abs(heightOf(figure) - plane.atMm) <= STOP_TOLERANCE_MM)
    .map((figure) => figure.id);
}

/** Raises (or lowers, below 0) things by one amount. */
export function raise(file: SceneFile, ids: readonly string[], byMm: number, options: MoveOptions = {}): EditResult {
  const flaw = numberFlaw(byMm, 'mm');
  if (flaw) return refused(flaw);
  const found = unlocked(file, withRiders(file, ids, options));
  if (!found.ok) return found;
  const moving = found.chosen;
  let by = byMm;
  for (const placement of moving) {
    const { minMm, maxMm } = heightRange(file, placement);
    const now = heightOf(placement);
    by = Math.min(Math.max(by, minMm - now), maxMm - now);
  }
  if (byMm !== 0 && Math.abs(by) < NO_MOVE_MM) return refused(atLimit(file, moving, byMm < 0));
  const set = new Set(moving);
  const moved = withThings(file, (placement) => (set.has(placement) ? atHeight(placement, tidy(heightOf(placement) + by)) : placement));
  const named = moving.filter((placement) => ids.includes(placement.id));
  return done(moved, `${spokenAll(named.length > 0 ? named : moving)} ${by < 0 ? 'down' : 'up'} ${labelMm(Math.abs(by))}`);
}

/** Sets one thing's height (`base` of a solid, `at` of a plane), mm up; kept within its range. */
export function setHeight(file: SceneFile, id: string, mm: number, options: MoveOptions = {}): EditResult {
  const flaw = numberFlaw(mm, 'mm');
  if (flaw) return refused(flaw);
  const placement = thing(file, id);
  if (!placement) return refused('That thing is no longer there.');
  const { minMm, maxMm } = heightRange(file, placement);
  const to = tidy(Math.min(Math.max(mm, minMm), maxMm));
  if (to === heightOf(placement)) return isLocked(placement) ? refused(`${nameOf(placement)} is locked. Unlock it first.`) : done(file, `${spoken(nameOf(placement))} at ${labelMm(to)}`);
  const result = raise(file, [id], to - heightOf(placement), options);
  return result.ok ? { ...result, label: `${spoken(nameOf(placement))} ${to < heightOf(placement) ? 'down' : 'up'} to ${labelMm(to)}` } : result;
}

/** Sets several heights at once, each kept within its range; locked things stay. */
export function setHeights(file: SceneFile, heights: ReadonlyMap<string, number>, label?: string): EditResult {
  for (const mm of heights.values()) {
    const flaw = numberFlaw(mm, 'mm');
    if (flaw) return refused(flaw);
  }
  const found = unlocked(file, [...heights.keys()]);
  if (!found.ok) return found;
  const moving = new Set(found.chosen);
  const moved = withThings(file, (placement) => {
    if (!moving.has(placement)) return placement;
    const { minMm, maxMm } = heightRange(file, placement);
    return atHeight(placement, tidy(Math.min(Math.max(heights.get(placement.id)!, minMm), maxMm)));
  });
  return done(moved, label ?? `${spokenAll(found.chosen)} moved`);
}

/** Moves things over the floor, mm; a plane's art goes with it. */
export function shift(file: SceneFile, ids: readonly string[], dxMm: number, dyMm: number): EditResult {
  const flaw = numberFlaw(dxMm, 'mm') ?? numberFlaw(dyMm, 'mm');
  if (flaw) return refused(flaw);
  const found = unlocked(file, ids);
  if (!found.ok) return found;
  const moving = new Set(found.chosen);
  const moved = withThings(file, (placement) => (moving.has(placement) ? shifted(placement, dxMm, dyMm) : placement));
  if (moved === file && (dxMm !== 0 || dyMm !== 0)) return refused('A plane without a picture covers the whole floor, so it only moves up and down.');
  return done(moved, `${spokenAll(found.chosen)} moved`, spokenAll(found.chosen));
}

/** Sets where things are over the floor, mm; what is left out stays as it was. */
export function setPlaces(file: SceneFile, places: ReadonlyMap<string, { readonly xMm?: number; readonly yMm?: number }>, label?: string): EditResult {
  const found = unlocked(file, [...places.keys()]);
  if (!found.ok) return found;
  const moving = new Set(found.chosen);
  const moved = withThings(file, (placement) => {
    const to = moving.has(placement) ? places.get(placement.id) : undefined;
    return to ? placedAt(placement, to) : placement;
  });
  return done(moved, label ?? `${spokenAll(found.chosen)} moved`, spokenAll(found.chosen));
}

/** Turns things about the upright axis, degrees counter-clockwise seen from above; a plane's art turns with it. */
export function turn(file: SceneFile, ids: readonly string[], byDeg: number): EditResult {
  const flaw = numberFlaw(byDeg, '°');
  if (flaw) return refused(flaw);
  const found = unlocked(file, ids);
  if (!found.ok) return found;
  const moving = new Set(found.chosen);
  const moved = withThings(file, (placement) => {
    if (!moving.has(placement)) return placement;
    if (placement.kind === 'plane') return placement.art ? patched(placement, { art: patched(placement.art, { turnDeg: within360((placement.art.turnDeg ?? 0) + byDeg) }) }) : placement;
    const [x, y, z] = placement.turnDeg ?? [0, 0, 0];
    return patched(placement, { turnDeg: [x, y, within360(z + byDeg)] });
  });
  if (moved === file && within360(byDeg) !== 0) return refused('A plane without a picture has nothing to turn.');
  return done(moved, `${spokenAll(found.chosen)} turned ${plain(byDeg, 1)}°`);
}

/** Sets a solid's turns about the fixed x, then y, then z axis, degrees. */
export function setTurn(file: SceneFile, id: string, turnDeg: readonly [number, number, number]): EditResult {
  const flaw = turnDeg.map((deg) => numberFlaw(deg, '°')).find((found) => found !== null);
  if (flaw) return refused(flaw);
  return withSolid(file, id, { turnDeg: [within360(turnDeg[0]), within360(turnDeg[1]), within360(turnDeg[2])] }, 'turned', 'turn');
}

/** Sets a solid's size against its drawn or filed one: 1 is as it came. */
export function setScale(file: SceneFile, id: string, scale: number): EditResult {
  return withSolid(file, id, { scale }, `at ${plain(scale * 100, 1)}\u00a0%`, 'size');
}

/** Below this nothing has moved, mm: the last decimal stored. */
const NO_MOVE_MM = 1e-6;

function withRiders(file: SceneFile, ids: readonly string[], { riders = false }: MoveOptions): readonly string[] {
  return riders ? [...new Set([...ids, ...ids.flatMap((id) => ridersOf(file, id))])] : ids;
}

/** Says which thing can go no further. */
function atLimit(file: SceneFile, moving: readonly PlacementFile[], down: boolean): string {
  const free = (placement: PlacementFile) => (down ? heightOf(placement) - heightRange(file, placement).minMm : heightRange(file, placement).maxMm - heightOf(placement));
  const name = nameOf(moving.reduce((a, b) => (free(b) < free(a) ? b : a)));
  return down ? `${name} is on the floor already.` : `${name} is at the top already. Fill higher to raise it.`;
}

function shifted(placement: PlacementFile, dxMm: number, dyMm: number): PlacementFile {
  const from = placement.kind === 'plane' ? placement.art : placement;
  return from ? placedAt(placement, { xMm: (from.xMm ?? 0) + dxMm, yMm: (from.yMm ?? 0) + dyMm }) : placement;
}

function placedAt(placement: PlacementFile, to: { readonly xMm?: number; readonly yMm?: number }): PlacementFile {
  const patch = { ...(to.xMm !== undefined && { xMm: place(to.xMm) }), ...(to.yMm !== undefined && { yMm: place(to.yMm) }) };
  if (placement.kind !== 'plane') return patched(placement, patch);
  return placement.art ? patched(placement, { art: patched(placement.art, patch) }) : placement;
}

function place(mm: number): number {
  return tidy(Math.min(Math.max(mm, -LIMITS.lengthMm), LIMITS.lengthMm));
}

/** −180 < degrees ≤ 180. */
function within360(deg: number): number {
  const turned = ((((deg + 180) % 360) + 360) % 360) - 180;
  return tidy(turned === -180 ? 180 : turned);
}

function withSolid(file: SceneFile, id: string, patch: { readonly scale?: number; readonly turnDeg?: readonly [number, number, number] }, words: string, subject: string): EditResult {
  const found = unlocked(file, [id]);
  if (!found.ok) return found;
  const [placement] = found.chosen;
  if (placement.kind === 'plane') return refused('A painted plane is flat and level; turn or size its picture instead.');
  return done(
    withThings(file, (each) => (each === placement ? patched(placement, patch) : each)),
    `${spoken(nameOf(placement))} ${words}`,
    subject,
  );
}

/** Why a number can't be used, or null. */
function numberFlaw(value: number, unit: string): string | null {
  return Number.isFinite(value) ? null : `Found no number; expected one in ${unit}.`;
}
