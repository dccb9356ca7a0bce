/** 3MF's own traps: units, nested components, mirroring, parts of the package, XML and zip that lie. */

import { describe, expect, it } from 'vitest';
import { readMesh } from '../../../src/files/mesh/read.ts';
import { writeZip } from '../../../src/files/zip-write.ts';
import { meshXml, modelXml, soupOf, threemf, threemfOf, turnedBox, utf8, volumeOf } from './writers.ts';

const box = turnedBox();
const VOLUME = volumeOf(box);
/** Relative; products along a chain of maps, and sums a few hundred mm from the origin. */
const CHAINED = 1e-10;
const object = (id: number, content: string, type = 'model'): string => `<object id="${id}" type="${type}">${content}</object>`;
const build = (...items: string[]): string => `<build>${items.join('')}</build>`;
const read = (bytes: Uint8Array) => readMesh(bytes, 'a.3mf');
const readModel = (objects: string, items: string, parts = {}) => read(threemf(modelXml(`<resources>${objects}</resources>${items}`), parts));
const ITEM = build('<item objectid="1"/>');

describe('3MF', () => {
  // Unit definitions: 3MF Core Specification §3.4 lists them; 25.4 mm and 304.8 mm are exact (NIST SP 811, B.8).
  it.each([['micron', 0.001], ['millimeter', 1], ['centimeter', 10], ['inch', 25.4], ['foot', 304.8], ['meter', 1000]])('unit %s is %d mm', (unit, mm) => {
    expect(Math.abs(volumeOf(read(threemfOf(box, unit))) / (VOLUME * mm ** 3) - 1)).toBeLessThan(CHAINED);
  });

  it('no unit is millimeters, an unknown one is refused', () => {
    expect(soupOf(read(threemf(modelXml(`<resources>${object(1, meshXml(box))}</resources>${ITEM}`, ''))))).toEqual(soupOf(box));
    expect(() => read(threemfOf(box, 'furlong'))).toThrow(/unit "furlong"/);
  });

  it('row vectors: the first three numbers are where x goes, the last three the shift', () => {
    const mesh = readModel(object(1, meshXml(box)), build('<item objectid="1" transform="0 2 0 -1 0 0 0 0 1 100 200 300"/>'));
    // x' = −y + 100, y' = 2x + 200, z' = z + 300.
    const expected = soupOf(box).map((_, i, soup) => {
      const [x, y, z] = soup.slice(i - (i % 3), i - (i % 3) + 3);
      return [-y + 100, 2 * x + 200, z + 300][i % 3];
    });
    expect(soupOf(mesh)).toEqual(expected);
  });

  it('components inside components: inner maps first', () => {
    const objects = object(1, meshXml(box)) + object(2, '<components><component objectid="1" transform="2 0 0 0 2 0 0 0 2 0 0 0"/><component objectid="1" transform="1 0 0 0 1 0 0 0 1 500 0 0"/></components>') + object(3, '<components><component objectid="2" transform="1 0 0 0 1 0 0 0 1 0 0 7"/></components>');
    const mesh = readModel(objects, build('<item objectid="3" transform="1 0 0 0 0 1 0 -1 0 10 0 0"/>', '<item objectid="1"/>'));
    expect(mesh.indices.length).toBe(3 * 36);
    expect(Math.abs(volumeOf(mesh) / (VOLUME * (8 + 1 + 1)) - 1)).toBeLessThan(CHAINED);
    // (x, y, z) → 2(x, y, z) → z + 7 → (x, −z, y) + (10, 0, 0): y' = −(2z + 7), z' = 2y.
    const [x, y, z] = soupOf(box);
    const first = soupOf(mesh).slice(0, 3);
    [2 * x + 10, -(2 * z + 7), 2 * y].forEach((value, k) => expect(Math.abs(first[k] - value)).toBeLessThan(1e-12));
  });

  it('a mirrored item keeps outside outside', () => {
    expect(Math.abs(volumeOf(readModel(object(1, meshXml(box)), build('<item objectid="1" transform="-1 0 0 0 1 0 0 0 1 0 0 0"/>'))) / VOLUME - 1)).toBeLessThan(CHAINED);
  });

  it('objects in other parts, by path in any case, in a unit of their own', () => {
    const part = modelXml(`<resources>${object(4, meshXml(box))}</resources><build/>`, 'unit="centimeter"');
    const mesh = readModel(object(1, '<components><component objectid="4" p:path="/3D/Objects/Newt.model"/></components>'), build('<item objectid="1"/>', '<item objectid="4" p:path="/3d/objects/newt.model" transform="1 0 0 0 1 0 0 0 1 50 0 0"/>'), { '3D/Objects/newt.model': part });
    expect(Math.abs(volumeOf(mesh) / (2000 * VOLUME) - 1)).toBeLessThan(CHAINED);
    expect(soupOf(mesh)[108]).toBeCloseTo(10 * soupOf(box)[0] + 50, 10);
  });

  it('only what the build places counts, and supports do not', () => {
    const objects = object(1, meshXml(box)) + object(2, meshXml(box)) + object(3, meshXml(box), 'support') + object(5, '<components><component objectid="1"/><component objectid="3"/></components>');
    expect(readModel(objects, build('<item objectid="5"/>', '<item objectid="3"/>')).indices.length).toBe(36);
  });

  it('a prefix for the core, other extensions\' elements, comments, CDATA and processing instructions', () => {
    const text = modelXml(`<resources><m:colorgroup xmlns:m="x" id="9"><m:color color="#fff"/></m:colorgroup>${object(1, meshXml(box))}</resources>${ITEM}<metadata name="a&lt;b"><![CDATA[ <vertex x="1"/> ]]></metadata><?pi <vertex ?>`);
    expect(soupOf(read(threemf(text)))).toEqual(soupOf(box));
    const prefixed = text.replace(/<(\/?)(model|resources|object|mesh|vertices|vertex|triangles|triangle|build|item|metadata)\b/g, '<$1c:$2').replace('xmlns=', 'xmlns:c=');
    expect(soupOf(read(threemf(prefixed)))).toEqual(soupOf(box));
  });

  it('without relations the usual place is looked at', () => {
    expect(soupOf(read(writeZip([{ name: '3D/3DModel.model', bytes: utf8(modelXml(`<resources>${object(1, meshXml(box))}</resources>${ITEM}`)) }])))).toEqual(soupOf(box));
  });
});

describe('what 3MF refuses', () => {
  const components = (...ids: number[]): string => `<components>${ids.map((id) => `<component objectid="${id}"/>`).join('')}</components>`;
  const doubling = Array.from({ length: 60 }, (_, i) => object(i + 2, components(i + 1, i + 1))).join('');
  const chain = Array.from({ length: 300 }, (_, i) => object(i + 2, components(i + 1))).join('');
  const sound = object(1, meshXml(box));

  it.each([
    ['an object in itself', object(1, components(1)), ITEM, /object 1 contains itself/],
    ['a circle', object(1, components(2)) + object(2, components(3)) + object(3, components(1)), ITEM, /contains itself/],
    ['2^60 copies', sound + doubling, build('<item objectid="61"/>'), /100,000 parts/],
    ['2^60 copies of nothing', object(1, '<mesh/>') + doubling, build('<item objectid="61"/>'), /100,000 parts/],
    ['300 levels', sound + chain, build('<item objectid="301"/>'), /100 deep/],
    ['300 levels from below', sound + chain, build(...Array.from({ length: 301 }, (_, i) => `<item objectid="${i + 1}"/>`)), /100 deep/],
    ['a missing object', sound, build('<item objectid="7"/>'), /object 7 is placed but not there/],
    ['a missing part', sound, build('<item objectid="1" p:path="/3D/other.model"/>'), /no part "\/3D\/other\.model"/],
    ['no build', sound, '<build/>', /a build without items/],
    ['no objectid', sound, build('<item/>'), /without an objectid/],
    ['equal ids', sound + sound, ITEM, /two objects with the id 1/],
    ['eleven numbers', sound, build('<item objectid="1" transform="1 0 0 0 1 0 0 0 1 0 0"/>'), /twelve numbers/],
    ['an infinite transform', sound, build('<item objectid="1" transform="1 0 0 0 1 0 0 0 1e999 0 0 0"/>'), /twelve numbers/],
    ['a vertex without z', sound.replace(/ z="[^"]*"/, ''), ITEM, /<vertex> with z=""/],
    ['a negative corner', sound.replace('v1="0"', 'v1="-1"'), ITEM, /v1="-1"/],
    ['a corner out of range', sound.replace('v1="0"', 'v1="8"'), ITEM, /uses vertex 8/],
  ])('%s', (_, objects, items, message) => {
    expect(() => readModel(objects, items)).toThrow(message);
  });

  const text = modelXml(`<resources>${sound}</resources>${ITEM}`);
  it.each([
    ['entities', text.replace('<!-- <object> -->', '<!DOCTYPE model [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>'), /document type or entity/],
    ['cut XML', text.slice(0, 900), /cut off/],
    ['elements out of order', text.replace('</mesh></object>', '</object></mesh>'), /<\/object> that closes nothing/],
    ['no quotes', text.replace('id="1"', 'id=1'), /without quotes/],
    ['no value', text.replace('id="1"', 'id'), /without a value/],
    ['10,000 levels', modelXml('<a>'.repeat(10_000)), /more than 100 deep/],
    ['10,000 attributes', modelXml(`<a ${Array.from({ length: 10_000 }, (_, i) => `a${i}=""`).join(' ')}/>`), /more than 64 attributes/],
    ['another root', '<svg/>', /<svg> in its model part/],
    ['no root', ' ', /without elements/],
    ['a needed extension', text.replace('<model', '<model xmlns:b="http://schemas.microsoft.com/3dmanufacturing/beamlattice/2017/02" requiredextensions="b"'), /needs the extension "http.*beamlattice/],
  ])('%s', (_, model, message) => {
    expect(() => read(threemf(model))).toThrow(message);
  });

  it('harmless needs are met', () => {
    expect(soupOf(read(threemf(text.replace('<model', '<model requiredextensions="p"'))))).toEqual(soupOf(box));
  });

  it('a zip without a model, and no zip at all', () => {
    expect(() => read(writeZip([{ name: 'a.txt', bytes: utf8('a') }]))).toThrow(/no model in the package/);
    expect(() => read(utf8(text))).toThrow(/does not begin like a zip/);
  });
});
