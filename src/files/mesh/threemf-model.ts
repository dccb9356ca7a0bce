/**
 * One model part of a 3MF package: its unit, objects and build.
 * Source: 3MF Core Specification 1.3 §3 (model, resources, objects), §3.3 (transforms), §4 (mesh, components);
 * 3MF Production Extension 1.1 §3.1 (`path`).
 */

import { grouped, quoted, type Fail } from '../fail.ts';
import { MAX_INSTANCES, MAX_TRIANGLES, MAX_VERTICES } from '../limits.ts';
import { IDENTITY, type Affine } from './assemble.ts';
import { filled, growingDoubles, growingIndices, push, type Growing } from './growing.ts';
import { EXPORT_AGAIN, tooMany } from './raw.ts';
import { requiredNumber, walkXml, type XmlTag } from './xml.ts';

const UNITS_MM: Readonly<Record<string, number>> = { micron: 0.001, millimeter: 1, centimeter: 10, inch: 25.4, foot: 304.8, meter: 1000 };

/** What an extension must be for its `requiredextensions` to leave the shape to the core's triangles. */
const HARMLESS_EXTENSIONS = ['/production/', '/material/', '/trianglesets/'];

export interface Reference {
  readonly objectId: string;
  /** Another part of the package. */
  readonly path?: string;
  readonly placed: Affine;
}

export interface ModelObject {
  readonly type: string;
  readonly positions: Float64Array;
  readonly indices: Uint32Array;
  readonly components: readonly Reference[];
}

export interface Model {
  readonly unitMm: number;
  readonly objects: ReadonlyMap<string, ModelObject>;
  readonly build: readonly Reference[];
}

interface OpenObject {
  readonly id: string;
  readonly type: string;
  readonly vertices: Growing<Float64Array>;
  readonly triangles: Growing<Uint32Array>;
  readonly components: Reference[];
}

/** Reads one part. Throws for broken XML, unknown units, needed extensions, and past the limits. */
export function readModel(bytes: Uint8Array, fail: Fail): Model {
  let unitMm = 1;
  let prefix: string | null = null;
  const objects = new Map<string, ModelObject>();
  const build: Reference[] = [];
  let object: OpenObject | undefined;
  let references = 0;
  const reference = (tag: XmlTag): Reference => {
    if (++references > MAX_INSTANCES) throw fail(`more than ${grouped(MAX_INSTANCES)} components and build items`, 'fewer', 'Join the parts before you export them.');
    const objectId = tag.text('objectid');
    if (objectId === undefined) throw fail(`<${quoted(tag.name)}> without an objectid`, 'the object it places', EXPORT_AGAIN);
    return { objectId, path: tag.text('path'), placed: transformOf(tag, fail) };
  };

  const core: Readonly<Record<string, (tag: XmlTag) => void>> = {
    vertex(tag) {
      if (!object) return;
      push(object.vertices, requiredNumber(tag, 'x', fail));
      push(object.vertices, requiredNumber(tag, 'y', fail));
      push(object.vertices, requiredNumber(tag, 'z', fail));
      if (object.vertices.length > 3 * MAX_VERTICES) throw tooMany('vertices', object.vertices.length / 3, fail);
    },
    triangle(tag) {
      if (!object) return;
      for (const corner of ['v1', 'v2', 'v3']) {
        const v = tag.number(corner);
        if (!(Number.isInteger(v) && v >= 0 && v < MAX_VERTICES)) throw fail(`a triangle of object ${quoted(object.id)} with ${corner}="${quoted(tag.text(corner) ?? '')}"`, 'the number of a vertex, from 0', EXPORT_AGAIN);
        push(object.triangles, v);
      }
      if (object.triangles.length > 3 * MAX_TRIANGLES) throw tooMany('triangles', object.triangles.length / 3, fail);
    },
    object(tag) {
      const id = tag.text('id');
      if (id === undefined || objects.has(id)) throw fail(id === undefined ? 'an object without an id' : `two objects with the id ${quoted(id)}`, 'an id of its own', EXPORT_AGAIN);
      object = { id, type: tag.text('type') ?? 'model', vertices: growingDoubles(), triangles: growingIndices(), components: [] };
    },
    component: (tag) => void object?.components.push(reference(tag)),
    item: (tag) => void build.push(reference(tag)),
  };

  walkXml(bytes, {
    open(tag) {
      if (prefix === null) {
        const colon = tag.name.indexOf(':');
        prefix = tag.name.slice(0, colon + 1);
        if (tag.name.slice(colon + 1) !== 'model') throw fail(`<${quoted(tag.name)}> in its model part`, '<model>', 'Check that this is a 3MF file.');
        unitMm = unitOf(tag, fail);
        refuseNeeded(tag, fail);
        return;
      }
      const name = localName(tag.name, prefix);
      if (name !== undefined && Object.hasOwn(core, name)) core[name](tag);
    },
    close(name) {
      if (!object || prefix === null || localName(name, prefix) !== 'object') return;
      objects.set(object.id, { type: object.type, positions: filled(object.vertices), indices: filled(object.triangles), components: object.components });
      object = undefined;
    },
  }, fail);
  if (prefix === null) throw fail('a model part without elements', '<model>', EXPORT_AGAIN);
  return { unitMm, objects, build };
}

/** The core's name of an element; undefined for those of extensions, which carry another prefix. */
function localName(name: string, prefix: string): string | undefined {
  if (!name.startsWith(prefix)) return undefined;
  return name.indexOf(':', prefix.length) < 0 ? name.slice(prefix.length) : undefined;
}

function unitOf(tag: XmlTag, fail: Fail): number {
  const unit = tag.text('unit') ?? 'millimeter';
  if (!Object.hasOwn(UNITS_MM, unit)) throw fail(`unit "${quoted(unit)}"`, Object.keys(UNITS_MM).join(', '), EXPORT_AGAIN);
  return UNITS_MM[unit];
}

/** Refuses a file that says it can't be understood without an extension which may change its shape. */
function refuseNeeded(tag: XmlTag, fail: Fail): void {
  for (const needed of (tag.text('requiredextensions') ?? '').split(/\s+/)) {
    if (needed === '') continue;
    const namespace = tag.text(`xmlns:${needed}`) ?? needed;
    if (!HARMLESS_EXTENSIONS.some((known) => namespace.includes(known))) {
      throw fail(`it needs the extension "${quoted(namespace)}"`, 'triangle meshes and components', 'Export it as a plain mesh (3MF without extensions, STL or OBJ).');
    }
  }
}

/** "m00 m01 m02 m10 … m32", rows for row vectors: exactly the order of `Affine`. */
function transformOf(tag: XmlTag, fail: Fail): Affine {
  const text = tag.text('transform');
  if (text === undefined) return IDENTITY;
  const numbers = text.length > 1000 ? [] : text.trim().split(/\s+/).map(Number);
  if (numbers.length !== 12 || !numbers.every(Number.isFinite)) throw fail(`transform="${quoted(text)}"`, 'twelve numbers', EXPORT_AGAIN);
  return numbers;
}
