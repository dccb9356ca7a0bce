/**
 * 3MF: a zip whose start part names the model; the build places objects, objects place other objects.
 * Supports are left out: they are cut off before a figure is embedded.
 * Source: 3MF Core Specification 1.3 §2 (package), §3.4 (objects), §3.5 (build); Production Extension 1.1 §3.1.
 */

import { grouped, quoted, type Fail } from '../fail.ts';
import { MAX_INSTANCES, MAX_NESTING } from '../limits.ts';
import { looksLikeZip, openZip, type ZipArchive } from '../zip.ts';
import { after, assemble, IDENTITY, type Affine, type Piece } from './assemble.ts';
import { EXPORT_AGAIN, type RawMesh } from './raw.ts';
import { readModel, type Model, type ModelObject, type Reference } from './threemf-model.ts';
import { walkXml } from './xml.ts';

const RELATIONS = '_rels/.rels';
const MODEL_RELATION = '/2013/01/3dmodel';
const USUAL_MODEL = '3d/3dmodel.model';
const SUPPORTS = ['support', 'solidsupport'];

/** Reads a 3MF. Everything its build places, as one mesh in the root model's unit. */
export function readThreemf(bytes: Uint8Array, fail: Fail): RawMesh {
  if (!looksLikeZip(bytes)) throw fail('it does not begin like a zip', 'a 3MF, which is a zip', 'Check that this is a 3MF file.');
  const zip = openZip(bytes, fail);
  const parts = partsOf(zip, fail);
  const rootPath = rootPart(zip, parts, fail);
  const root = parts.model(rootPath);
  if (root.build.length === 0) throw fail('a build without items', 'at least one', 'Put the figure on the build plate before you export it.');

  const measured = new Map<ModelObject, Load | null>();
  let instances = 0;
  for (const item of root.build) {
    instances += measure(item, rootPath, parts, measured, 0, fail).instances;
    if (instances > MAX_INSTANCES) throw fail(`components that place more than ${grouped(MAX_INSTANCES)} parts`, 'fewer', 'Join the parts before you export them.');
  }
  const pieces: Piece[] = [];
  for (const item of root.build) collect(item, rootPath, IDENTITY, parts, pieces);
  return { ...assemble(pieces, fail), unitMm: root.unitMm };
}

interface Parts {
  /** The real name of a part, by OPC's rule that case does not count. */
  find(path: string): string | undefined;
  model(path: string): Model;
  object(reference: Reference, from: string): { readonly object: ModelObject; readonly path: string };
}

function partsOf(zip: ZipArchive, fail: Fail): Parts {
  const byKey = new Map(zip.names.map((name) => [key(name), name]));
  const models = new Map<string, Model>();
  const find = (path: string): string | undefined => byKey.get(key(path));
  const model = (path: string): Model => {
    const name = find(path);
    if (name === undefined) throw fail(`no part "${quoted(path)}" in the package`, 'the part that the model names', EXPORT_AGAIN);
    let read = models.get(name);
    if (!read) models.set(name, (read = readModel(zip.read(name)!, fail)));
    return read;
  };
  return {
    find,
    model,
    object({ objectId, path }, from) {
      const where = path ?? from;
      const object = model(where).objects.get(objectId);
      if (!object) throw fail(`object ${quoted(objectId)} is placed but not there`, `one of the objects of "${quoted(where)}"`, EXPORT_AGAIN);
      return { object, path: where };
    },
  };
}

function key(path: string): string {
  return path.replace(/^\/+/, '').toLowerCase();
}

function rootPart(zip: ZipArchive, parts: Parts, fail: Fail): string {
  const relations = parts.find(RELATIONS);
  let target: string | undefined;
  if (relations !== undefined) {
    walkXml(zip.read(relations)!, {
      open(tag) {
        if (tag.text('Type')?.endsWith(MODEL_RELATION)) target ??= tag.text('Target');
      },
      close() {},
    }, fail);
  }
  const root = parts.find(target ?? USUAL_MODEL);
  if (root === undefined) throw fail(`no model${target === undefined ? '' : ` "${quoted(target)}"`} in the package`, 'a 3D model part', 'This is a zip, but not a 3MF; check the file.');
  return root;
}

/** How often an object's meshes are placed when it is placed once, and how deep it goes. */
interface Load {
  readonly instances: number;
  readonly depth: number;
}

/** Measures before anything is built: components of components can ask for 2^1000 meshes. `null` marks what is being measured. */
function measure(reference: Reference, from: string, parts: Parts, measured: Map<ModelObject, Load | null>, level: number, fail: Fail): Load {
  const { object, path } = parts.object(reference, from);
  const known = measured.get(object);
  if (known) return known;
  if (known === null) throw fail(`object ${quoted(reference.objectId)} contains itself`, 'components without a circle', EXPORT_AGAIN);
  if (level > MAX_NESTING) throw fail(`components more than ${MAX_NESTING} deep`, 'fewer', 'Join the parts before you export them.');
  measured.set(object, null);
  let instances = 1;
  let depth = 0;
  for (const component of object.components) {
    const inner = measure(component, path, parts, measured, level + 1, fail);
    instances += inner.instances;
    depth = Math.max(depth, inner.depth + 1);
  }
  if (depth > MAX_NESTING) throw fail(`components more than ${MAX_NESTING} deep`, 'fewer', 'Join the parts before you export them.');
  const load = { instances, depth };
  measured.set(object, load);
  return load;
}

function collect(reference: Reference, from: string, outer: Affine, parts: Parts, pieces: Piece[]): void {
  const { object, path } = parts.object(reference, from);
  if (SUPPORTS.includes(object.type)) return;
  // The shift and turn are in the unit of the part that places, the object in that of its own.
  const unit = parts.model(path).unitMm / parts.model(from).unitMm;
  const placed = after(outer, unit === 1 ? reference.placed : after(reference.placed, [unit, 0, 0, 0, unit, 0, 0, 0, unit, 0, 0, 0]));
  if (object.indices.length > 0) pieces.push({ positions: object.positions, indices: object.indices, placed });
  for (const component of object.components) collect(component, path, placed, parts, pieces);
}
