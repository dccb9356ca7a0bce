/** Fresh ids and names: `f3`, `Newt 2`. */
import { capital } from '../../units/format.ts';
import { lastPart } from '../links.ts';
import type { Shape } from '../scene.ts';
import type { SceneFile } from './file.ts';
import { nameOf, thingsOf } from './things.ts';

const PREFIX = { figure: 'f', bed: 'b', plane: 'p', creature: 'c' } as const;

/** The next id of a kind: one above the highest of that kind's letter, so that an id is not soon used again. */
export function freshId(file: SceneFile, kind: keyof typeof PREFIX, taken: ReadonlySet<string> = new Set()): string {
  const ids = new Set([...thingsOf(file).map((placement) => placement.id), ...(file.creatures ?? []).map((creature) => creature.id), ...taken]);
  const prefix = PREFIX[kind];
  let highest = 0;
  for (const id of ids) if (id.startsWith(prefix) && /^\d{1,6}$/.test(id.slice(1))) highest = Math.max(highest, Number(id.slice(1)));
  return `${prefix}${highest + 1}`;
}

/** The name, or the name with the first number that makes it the only one. */
export function freshName(file: SceneFile, name: string, taken: ReadonlySet<string> = new Set()): string {
  const names = new Set([...thingsOf(file).map(nameOf), ...(file.creatures ?? []).map(nameOf), ...taken]);
  if (!names.has(name)) return name;
  const stem = name.replace(/ \d{1,6}$/, '');
  for (let n = 2; ; n++) if (!names.has(`${stem} ${n}`)) return `${stem} ${n}`;
}

const SHAPE_NAMES: Readonly<Record<Exclude<Shape['type'], 'mesh' | 'library'>, string>> = {
  sphere: 'Ball',
  ellipsoid: 'Egg',
  box: 'Block',
  cylinder: 'Cylinder',
  cone: 'Cone',
  wedge: 'Slope',
  cap: 'Dome',
  measured: 'Found piece',
};
/** Longer names are cut when they come from a file's name, characters. */
const CUT_AT = 60;

/** What a shape is called before anyone names it: `Pond snail` for the library's pond-snail, a file by its name. */
export function nameOfShape(shape: Shape): string {
  if (shape.type !== 'mesh' && shape.type !== 'library') return SHAPE_NAMES[shape.type];
  const raw = shape.type === 'library' ? shape.name : lastPart(shape.file).replace(/\.[a-z0-9]{1,5}$/i, '');
  const words = raw.replace(/[-_\s]+/g, ' ').trim().slice(0, CUT_AT).trim();
  return words === '' ? 'Figure' : capital(words);
}

/** Longer than any tag or heading can show, characters. */
const NAME_MAX = 120;

/** Why a name can't be taken, or null. */
export function nameFlaw(name: string): string | null {
  const length = name.trim().length;
  if (length === 0) return 'Found no name; expected one or more letters.';
  return length > NAME_MAX ? `Found ${length} characters; expected a name of at most ${NAME_MAX}.` : null;
}
