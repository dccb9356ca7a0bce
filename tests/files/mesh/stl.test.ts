/** STL's own traps: which of the two it is, what trails, what is cut off. */

import { describe, expect, it } from 'vitest';
import { readMesh } from '../../../src/files/mesh/read.ts';
import { joined, soupOf, stlBinary, stlText, turnedBox, utf8 } from './writers.ts';

const box = turnedBox();
const binary = stlBinary(box);
const read = (bytes: Uint8Array) => soupOf(readMesh(bytes, 'a.stl'));
const withCount = (count: number): Uint8Array => {
  const bytes = binary.slice();
  new DataView(bytes.buffer).setUint32(80, count, true);
  return bytes;
};

describe('binary STL', () => {
  it('a header that starts with "solid" and looks like text is still binary', () => {
    expect(read(stlBinary(box, 'solid x facet normal 0 0 1 endsolid'))).toEqual(read(binary));
    expect(read(joined(stlBinary(box, 'solid x'), utf8('\r\n')))).toEqual(read(binary));
  });

  it('padding behind the triangles is passed over', () => {
    expect(read(joined(binary, new Uint8Array(7).fill(9)))).toEqual(read(binary));
    expect(read(joined(binary, new Uint8Array(4096)))).toEqual(read(binary));
  });

  it('whole triangles that the count leaves out are refused, since the volume would be wrong', () => {
    expect(() => read(withCount(11))).toThrow(/counts 11 triangles and room for 12/);
    expect(() => read(joined(binary, binary.subarray(84)))).toThrow(/counts 12 triangles and room for 24/);
  });

  it('a count past the end is refused before memory is taken', () => {
    expect(() => read(withCount(4_000_000_000))).toThrow(/a\.stl: a header that counts 4,000,000,000 triangles before room for 12; expected as many as it counts\. The file is cut off/);
    expect(() => read(binary.subarray(0, 83))).toThrow(/at least 84 bytes/);
  });
});

describe('ASCII STL', () => {
  const text = new TextDecoder().decode(stlText(box));

  it.each([
    ['capitals', text.toUpperCase()],
    ['carriage returns', text.replace(/\n/g, '\r')],
    ['Windows line ends and tabs', text.replace(/\n/g, '\r\n').replace(/ {2}/g, '\t')],
    ['a byte order mark', `\ufeff${text}`],
    ['leading blanks', `\n  ${text}`],
    ['normals that are no numbers', text.replaceAll('normal 0 0 0', 'normal nan nan nan')],
  ])('is read with %s', (_, variant) => {
    expect(read(utf8(variant))).toEqual(soupOf(box));
  });

  it('several solids are one mesh', () => {
    expect(read(joined(stlText(box), stlText(box)))).toEqual([...soupOf(box), ...soupOf(box)]);
  });

  it.each([
    ['a cut inside a facet', text.slice(0, text.indexOf('endloop', 900)), /the text ends inside a facet after \d triangles; .* cut off/],
    ['a missing end', text.slice(0, text.lastIndexOf('endsolid')), /without endsolid after 12 triangles/],
    ['four corners', text.replace('endloop', 'vertex 1 2 3\nendloop'), /more than three corners on line 7/],
    ['two corners', text.replace(/ *vertex.*\n/, ''), /a facet with 2 corners on line 7/],
    ['a word', text.replace('vertex', 'vortex'), /"vortex" on line 4; expected vertex or endfacet/],
    ['a number', text.replace(/vertex \S+/, 'vertex 1,5'), /"1,5" in a corner on line 4/],
  ])('%s is refused with its line', (_, variant, message) => {
    expect(() => read(utf8(variant))).toThrow(message);
  });
});
