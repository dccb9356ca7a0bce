/** What happens to things as wholes: doubled, taken out, named, locked. Several at once. */
import { changedEach, patched } from './replace.ts';
import { added, done, refused, type AddResult, type EditResult, type PlacementFile, type SceneFile } from './file.ts';
import { freshId, freshName, nameFlaw } from './names.ts';
import { whenFull } from './place.ts';
import { withCopiedSketches, withoutSketches } from './sketch.ts';
import { atHeight, heightOf, nameOf, spoken, spokenAll, thing, thingsOf, tidy, unlocked } from './things.ts';

/** A copy stands this far to the right of and behind its original, so that both are seen, mm. */
const COPY_APART_MM = 10;

/** Copies beside their originals, unlocked, with names of their own; a plane's copy goes half way to the next plane up, or down. */
export function duplicate(file: SceneFile, ids: readonly string[]): AddResult {
  const wanted = new Set(ids);
  const originals = thingsOf(file).filter((placement) => wanted.has(placement.id));
  if (originals.length === 0) return refused('Nothing is chosen. Choose one or more things to copy.');
  const full = whenFull(file, originals.length);
  if (full) return refused(full);
  const newIds = new Set<string>();
  const names = new Set<string>();
  const copies = originals.map((original): PlacementFile => {
    const id = freshId(file, original.kind, newIds);
    newIds.add(id);
    const name = freshName(file, nameOf(original), names);
    names.add(name);
    const copy = patched(original, { id, name, locked: undefined }) as PlacementFile;
    if (copy.kind === 'plane') return atHeight(copy, besidePlane(file, heightOf(copy)));
    return patched(copy, { xMm: (copy.xMm ?? 0) + COPY_APART_MM, yMm: (copy.yMm ?? 0) + COPY_APART_MM });
  });
  const sketched = withCopiedSketches(file, new Map(originals.map(({ id }, n) => [id, copies[n].id])));
  return added({ ...sketched, placements: [...thingsOf(file), ...copies] }, `${spokenAll(originals)} copied`, [...newIds], spokenAll(originals));
}

/** Takes things out; locked ones stay. */
export function remove(file: SceneFile, ids: readonly string[]): EditResult {
  const found = unlocked(file, ids);
  if (!found.ok) return found;
  const gone = new Set(found.chosen);
  const left = withoutSketches(file, new Set(found.chosen.map(({ id }) => id)));
  return done({ ...left, placements: thingsOf(file).filter((placement) => !gone.has(placement)) }, `${spokenAll(found.chosen)} taken out`);
}

export function rename(file: SceneFile, id: string, name: string): EditResult {
  const placement = thing(file, id);
  if (!placement) return refused('That thing is no longer there.');
  const flaw = nameFlaw(name);
  if (flaw) return refused(flaw);
  return withOne(file, id, (old) => patched(old, { name: name.trim() }), `${spoken(nameOf(placement))} named ${name.trim()}`);
}

/** Locked things stay where they are, whatever else moves. */
export function setLocked(file: SceneFile, ids: readonly string[], locked: boolean): EditResult {
  const wanted = new Set(ids);
  const found = thingsOf(file).filter((placement) => wanted.has(placement.id));
  if (found.length === 0) return refused('Nothing is chosen. Choose one or more things first.');
  const set = (placement: PlacementFile) => (wanted.has(placement.id) ? (patched(placement, { locked: locked ? true : undefined }) as PlacementFile) : placement);
  const placements = changedEach(thingsOf(file), set);
  return done(placements === file.placements ? file : { ...file, placements }, `${spokenAll(found)} ${locked ? 'locked' : 'unlocked'}`);
}

function withOne(file: SceneFile, id: string, change: (placement: PlacementFile) => PlacementFile, label: string): EditResult {
  return done({ ...file, placements: changedEach(thingsOf(file), (placement) => (placement.id === id ? change(placement) : placement)) }, label);
}

/** Half way from a plane to the next one up, or to the top; from the top, half way down. */
function besidePlane(file: SceneFile, atMm: number): number {
  const heights = thingsOf(file).filter((placement) => placement.kind === 'plane').map(heightOf);
  const above = Math.min(file.fillMm, ...heights.filter((height) => height > atMm));
  const below = Math.max(0, ...heights.filter((height) => height < atMm));
  return tidy(above > atMm ? (atMm + above) / 2 : (atMm + below) / 2);
}
