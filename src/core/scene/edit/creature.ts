/**
 * Creatures that are painted instead of set in: made of a figure and back, with planes through them, moved with their planes.
 * A creature's own planes are those that slice nothing else, hold no art nor sketch and were not there before; others only stop or begin to slice it.
 */
import { gapBesideStops } from '../../sight/beside-stops.ts';
import { planeHeights } from '../../sight/propose.ts';
import { plain } from '../../units/format.ts';
import { LIMITS } from '../schema.ts';
import { STOP_TOLERANCE_MM } from '../tolerance.ts';
import { added, done, refused, type AddResult, type CreatureFile, type EditResult, type FigureFile, type PlacementFile, type PlaneFile, type SceneFile } from './file.ts';
import { freshId, freshName, nameFlaw } from './names.ts';
import { whenFull } from './place.ts';
import { patched, unlessEmpty } from './replace.ts';
import { sketchedPlanes } from './sketch.ts';
import { heightOf, isLocked, labelMm, makesStop, nameOf, spoken, thing, thingsOf, tidy, unlocked } from './things.ts';

export interface PlanesWanted {
  readonly gapMm: number;
  /** How tall the creature stands, mm: its mesh knows, the file does not. */
  readonly tallMm: number;
  /** The thinnest pour that levels there, mm. */
  readonly minDepthMm: number;
}

export function creaturesOf(file: SceneFile): readonly CreatureFile[] {
  return file.creatures ?? [];
}

export function creature(file: SceneFile, id: string): CreatureFile | undefined {
  return creaturesOf(file).find((each) => each.id === id);
}

/**
 * Takes a figure out of the resin and paints it: a creature in its place, with planes through it a gap apart.
 * `turnOver` lays it on its back, so that through the floor of a face-down casting its back is seen.
 */
export function paintFigure(file: SceneFile, id: string, wanted: PlanesWanted & { readonly turnOver?: boolean }): AddResult {
  const found = unlocked(file, [id]);
  if (!found.ok) return found;
  const [figure] = found.chosen;
  if (figure.kind !== 'figure') return refused('Only a figure can be painted on planes. Choose one.');
  if (creaturesOf(file).length >= LIMITS.creatures) return refused(`A scene holds ${LIMITS.creatures} painted creatures at most. Take one out first.`);
  const { kind: _, name, shape, xMm, yMm, baseMm, turnDeg, scale, ...rest } = figure;
  const pose = { xMm, yMm, baseMm, turnDeg: wanted.turnOver ? turnedOver(turnDeg) : turnDeg, scale };
  const made: CreatureFile = { id: freshId(file, 'creature'), name: name ?? figure.id, shape, ...set(pose), wasFigure: rest };
  const without = { ...file, placements: thingsOf(file).filter((placement) => placement !== figure), creatures: [...creaturesOf(file), made] };
  const planned = spacedPlanes(without, made, wanted);
  if (!planned.ok) return planned;
  return added(planned.file, `${spoken(nameOf(figure))} painted on ${counted(planned.ids.length)}`, [made.id, ...planned.ids], 'planes');
}

/** The way back: the figure stands where the creature was, and the creature's own planes are gone. */
export function setInAgain(file: SceneFile, id: string): AddResult {
  const found = creature(file, id);
  if (!found) return refused('That creature is no longer there.');
  const { wasFigure = {}, featherMm: _, viewDeg: __, id: ___, colors: ____, read: _____, ...posed } = found;
  const without = withoutCreature(file, id);
  if (!without.ok) return without;
  const oldId = wasFigure.id;
  const free = typeof oldId === 'string' && !thing(without.file, oldId) && !creature(without.file, oldId);
  const figure = { kind: 'figure', ...posed, ...wasFigure, id: free ? oldId : freshId(without.file, 'figure') } as FigureFile;
  return added({ ...without.file, placements: [...thingsOf(without.file), figure] }, `${spoken(nameOf(figure))} set in again`, [figure.id], nameOf(figure));
}

/** Takes a creature out, and its own planes with it. */
export function removeCreature(file: SceneFile, id: string): EditResult {
  const found = creature(file, id);
  if (!found) return refused('That creature is no longer there.');
  const without = withoutCreature(file, id);
  return without.ok ? done(without.file, `${spoken(nameOf(found))} taken out`) : without;
}

/** Sets a creature's planes a gap apart through it: its own are moved, added or taken out. */
export function spacePlanes(file: SceneFile, id: string, wanted: PlanesWanted): AddResult {
  const found = creature(file, id);
  if (!found) return refused('That creature is no longer there.');
  const planned = spacedPlanes(file, found, wanted);
  return planned.ok ? added(planned.file, `${spoken(nameOf(found))} on ${counted(planned.ids.length)}, ${labelMm(wanted.gapMm)} apart`, planned.ids, 'planes') : planned;
}

/** Sets a creature's planes at these heights, mm up from the floor. */
export function setPlanes(file: SceneFile, id: string, heightsMm: readonly number[]): AddResult {
  const found = creature(file, id);
  if (!found) return refused('That creature is no longer there.');
  const planned = planesAt(file, found, heightsMm);
  return planned.ok ? added(planned.file, `${spoken(nameOf(found))} on ${counted(planned.ids.length)}`, planned.ids, 'planes') : planned;
}

/** Raises creatures (or lowers them, below 0) with all their planes, as far as the floor and the top let the planes. */
export function raiseCreatures(file: SceneFile, ids: readonly string[], byMm: number): EditResult {
  if (!Number.isFinite(byMm)) return refused('Found no number; expected one in mm.');
  const moving = creaturesOf(file).filter((each) => ids.includes(each.id));
  if (moving.length === 0) return refused('Nothing is chosen. Choose a creature first.');
  const planes = thingsOf(file).filter((placement): placement is PlaneFile => placement.kind === 'plane' && (placement.slices ?? []).some((slice) => ids.includes(slice)));
  const shared = planes.find(({ slices }) => slices!.some((slice) => !ids.includes(slice)));
  if (shared) return refused(`${nameOf(shared)} has other creatures on it too. Move them together, or take one off that plane first.`);
  const held = planes.find(isLocked);
  if (held) return refused(`${nameOf(held)} is locked. Unlock it first.`);
  const low = Math.min(...planes.map(({ atMm }) => atMm));
  const high = Math.max(...planes.map(({ atMm }) => atMm));
  const by = Math.min(Math.max(byMm, Math.min(0, -low)), Math.max(0, file.fillMm - high));
  if (byMm !== 0 && by === 0) return refused(byMm < 0 ? 'Its lowest plane is on the floor already.' : 'Its highest plane is at the top already. Fill higher to raise it.');
  const raised = new Set<PlacementFile>(planes);
  return done(
    {
      ...file,
      placements: thingsOf(file).map((placement) => (raised.has(placement) ? patched(placement as PlaneFile, { atMm: tidy((placement as PlaneFile).atMm + by) }) : placement)),
      creatures: creaturesOf(file).map((each) => (ids.includes(each.id) ? patched(each, { baseMm: tidy((each.baseMm ?? 0) + by) }) : each)),
    },
    `${moving.length === 1 ? spoken(nameOf(moving[0])) : `${moving.length} creatures`} ${by < 0 ? 'down' : 'up'} ${labelMm(Math.abs(by))}`,
  );
}

/** Where it is over the floor, how it is turned, its size, its feather and the look it is made for; what is left out stays. */
export function setCreature(file: SceneFile, id: string, patch: Partial<Pick<CreatureFile, 'name' | 'xMm' | 'yMm' | 'turnDeg' | 'scale' | 'featherMm' | 'viewDeg'>>): EditResult {
  const found = creature(file, id);
  if (!found) return refused('That creature is no longer there.');
  const flaw = patch.name === undefined ? null : nameFlaw(patch.name);
  if (flaw) return refused(flaw);
  const tidied = Object.fromEntries(Object.entries(patch).map(([field, value]) => [field, typeof value === 'string' ? value.trim() : typeof value === 'number' ? tidy(value) : value]));
  return done({ ...file, creatures: creaturesOf(file).map((each) => (each === found ? patched(each, tidied) : each)) }, `${spoken(nameOf(found))} ${changeWords(patch)}`, nameOf(found));
}

/** Which creatures are painted on a plane. */
export function setSlices(file: SceneFile, planeId: string, ids: readonly string[]): EditResult {
  const plane = thing(file, planeId);
  if (plane?.kind !== 'plane') return refused('That plane is no longer there.');
  return done({ ...file, placements: thingsOf(file).map((placement) => (placement === plane ? onto(plane, ids) : placement)) }, `creatures on ${spoken(nameOf(plane))}`, nameOf(plane));
}

type Planned = { readonly ok: true; readonly file: SceneFile; readonly ids: readonly string[] } | { readonly ok: false; readonly reason: string };

function spacedPlanes(file: SceneFile, found: CreatureFile, { gapMm, tallMm, minDepthMm }: PlanesWanted): Planned {
  if (!(gapMm > 0) || !Number.isFinite(gapMm)) return refused(`Found ${gapMm}; expected a gap above 0 mm between planes.`);
  if (tallMm / gapMm > LIMITS.placements) return refused(`Found a gap of ${labelMm(gapMm)}, for more than ${LIMITS.placements} planes; expected a wider one.`);
  const bottomMm = found.baseMm ?? 0;
  const topMm = bottomMm + tallMm;
  const even = planeHeights(bottomMm, topMm, gapMm, { fillMm: file.fillMm, minDepthMm });
  return planesAt(file, found, gapBesideStops(even, { stopsMm: otherStops(file, found.id), minDepthMm, bottomMm, topMm }));
}

/** Own planes are moved in order from the floor up, so that names, painting times and notes stay with them; others nearby take the creature on. */
function planesAt(file: SceneFile, found: CreatureFile, heightsMm: readonly number[]): Planned {
  if (heightsMm.length === 0) return refused(`${nameOf(found)} lies outside the resin. Move it between the floor and ${labelMm(file.fillMm)} up.`);
  if (!heightsMm.every(Number.isFinite)) return refused('Found no number; expected heights in mm.');
  const heights = [...heightsMm].sort((a, b) => a - b);
  const sketched = sketchedPlanes(file);
  const before = thingsOf(file).map((placement) => (placement.kind === 'plane' && !isOwn(placement, found.id, sketched) ? unsliced(placement, found.id) : placement));
  const own = before.filter((placement): placement is PlaneFile => isOwn(placement, found.id, sketched)).sort((a, b) => a.atMm - b.atMm);
  const held = own.find(isLocked);
  if (held) return refused(`${nameOf(held)} is locked. Unlock it first.`);
  const others = before.filter((placement) => !own.includes(placement as PlaneFile));
  const there = heights.map((height) => others.find((placement): placement is PlaneFile => placement.kind === 'plane' && Math.abs(placement.atMm - height) <= STOP_TOLERANCE_MM));
  const free = heights.filter((_, n) => !there[n]);
  const kept = own.slice(0, free.length).map((plane, n) => patched(plane, { atMm: tidy(free[n]) }));
  const full = whenFull({ ...file, placements: others }, free.length);
  if (full) return refused(full);
  const fresh: PlaneFile[] = [];
  const scope = { ...file, placements: [...others, ...own] };
  for (const height of free.slice(kept.length)) {
    const so = { ...scope, placements: [...scope.placements, ...fresh] };
    fresh.push({ id: freshId(so, 'plane'), kind: 'plane', name: freshName(so, `${nameOf(found)} 1`), atMm: tidy(height), slices: [found.id] });
  }
  const taking = new Set<PlacementFile>(there.filter((plane) => plane !== undefined));
  const moved = new Map<PlacementFile, PlaneFile | undefined>(own.map((plane, n) => [plane, kept[n]]));
  const placements = before.flatMap((placement): PlacementFile[] => {
    if (moved.has(placement)) return moved.get(placement) ? [moved.get(placement)!] : [];
    return [taking.has(placement) ? onto(placement as PlaneFile, [...((placement as PlaneFile).slices ?? []), found.id]) : placement];
  });
  const all = [...placements, ...fresh];
  return { ok: true, file: { ...file, placements: all }, ids: all.filter((placement) => placement.kind === 'plane' && placement.slices?.includes(found.id)).map(({ id }) => id) };
}

/** Heights where pouring stops whatever planes the creature has of its own, the floor and the top among them. `id` is its own, or of the figure it is to be made of. */
export function otherStops(file: SceneFile, id: string): readonly number[] {
  const sketched = sketchedPlanes(file);
  const things = thingsOf(file).filter((placement) => makesStop(placement) && placement.id !== id && !isOwn(placement, id, sketched)).map(heightOf);
  return [0, ...things, ...file.fills.map(({ toMm }) => toMm)];
}

function withoutCreature(file: SceneFile, id: string): { readonly ok: true; readonly file: SceneFile } | { readonly ok: false; readonly reason: string } {
  const sketched = sketchedPlanes(file);
  const held = thingsOf(file).find((placement) => isOwn(placement, id, sketched) && isLocked(placement));
  if (held) return refused(`${nameOf(held)} is locked. Unlock it first.`);
  const creatures = creaturesOf(file).filter((each) => each.id !== id);
  return { ok: true, file: patched(offPlanes(file, id), { creatures: unlessEmpty(creatures) }) };
}

/** The file with the creature on no plane: its own are gone, the others are without it. */
export function offPlanes(file: SceneFile, id: string): SceneFile {
  const sketched = sketchedPlanes(file);
  return { ...file, placements: thingsOf(file).filter((placement) => !isOwn(placement, id, sketched)).map((placement) => (placement.kind === 'plane' ? unsliced(placement, id) : placement)) };
}

/** A plane that is there for this creature alone: nothing was put or sketched on it. */
function isOwn(placement: PlacementFile, id: string, sketched: ReadonlySet<string>): boolean {
  return placement.kind === 'plane' && !placement.stays && placement.art === undefined && !sketched.has(placement.id) && placement.slices?.length === 1 && placement.slices[0] === id;
}

function unsliced(plane: PlaneFile, id: string): PlaneFile {
  return plane.slices?.includes(id) ? onto(plane, plane.slices.filter((slice) => slice !== id)) : plane;
}

/** The plane with these creatures on it; a plane that had none is there for its own sake. */
function onto(plane: PlaneFile, slices: readonly string[]): PlaneFile {
  if (slices.length === 0) return patched(plane, { slices: undefined, stays: undefined });
  return patched(plane, { slices, ...((plane.slices ?? []).length === 0 && { stays: true }) });
}

/** Half a turn about the fixed x axis, after Rz·Ry·Rx(a, b, c): that is (a + 180°, −b, −c). */
function turnedOver(turnDeg: FigureFile['turnDeg'] = [0, 0, 0]): readonly [number, number, number] {
  const [a, b, c] = turnDeg;
  return [a + 180 > 180 ? a - 180 : a + 180, -b + 0, -c + 0];
}

/** Without the fields that nobody set. */
function set<T extends object>(fields: T): T {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as T;
}

const counted = (planes: number): string => (planes === 1 ? 'one plane' : `${planes} planes`);

function changeWords({ name, scale, featherMm, viewDeg, turnDeg }: Parameters<typeof setCreature>[2]): string {
  if (name !== undefined) return `named ${name.trim()}`;
  if (scale !== undefined) return `at ${plain(scale * 100, 1)}\u00a0%`;
  if (featherMm !== undefined) return `feathered over ${labelMm(featherMm)}`;
  if (viewDeg !== undefined) return `made for a look of ${plain(viewDeg, 1)}°`;
  return turnDeg === undefined ? 'moved' : 'turned';
}
