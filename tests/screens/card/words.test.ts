/** Places in words and numbers, ratios, shelves and pictures: the card's pure helpers. */
import { describe, expect, it } from 'vitest';
import type { SceneFile } from '../../../src/core/scene/edit/file.ts';
import { pictureKind, svgWidthMm } from '../../../src/screens/card/art-picture.ts';
import { withoutOutsideStyles } from '../../../src/screens/card/svg-clean.ts';
import { deepOf, fromWalls, intoMold, standingWords } from '../../../src/screens/card/place-words.ts';
import { readRatio } from '../../../src/screens/card/ratio.ts';
import { readShelf } from '../../../src/screens/card/shelf.ts';
import { demo } from '../compose/demo.ts';

describe('height and depth', () => {
  it.each([0, 20, 44.3, 55, 60])('%d up and its depth lead to each other, either way it is cast', (up) => {
    for (const cast of ['face-up', 'face-down'] as const) {
      const file = { cast, fillMm: 55 };
      expect(deepOf(file, deepOf(file, up))).toBe(up);
    }
    expect(deepOf({ fillMm: 55 }, up)).toBeCloseTo(55 - up, 9);
    expect(deepOf({ cast: 'face-down', fillMm: 55 }, up)).toBe(up);
  });
});

describe('from the walls', () => {
  it('counts from the left and front wall at the floor, and back', () => {
    expect(fromWalls(demo, { xMm: 8, yMm: -6 })).toEqual({ leftMm: 108, frontMm: 54 });
    expect(intoMold(demo, { leftMm: 108, frontMm: 54 })).toEqual({ xMm: 8, yMm: -6 });
    expect(intoMold(demo, { leftMm: 108 })).toEqual({ xMm: 8 });
  });

  it('counts from the edge of the circle in a round mold', () => {
    const round: SceneFile = { ...demo, mold: { shape: 'round', diameterMm: 150, heightMm: 60 } };
    expect(fromWalls(round, {})).toEqual({ leftMm: 75, frontMm: 75 });
  });
});

it('says what a thing stands on', () => {
  const words = (id: string) => standingWords(demo, demo.placements!.find((placement) => placement.id === id)!);
  expect(words('f1')).toBe('rests on Lily shadows, under Lily pads');
  expect(words('f2')).toBe('is fastened to what is below it, under Lily shadows');
  expect(words('b1')).toBe('is fastened on the floor, under Lily shadows');
  expect(words('p2')).toBe('painted on the cured resin');
});

describe('ratios', () => {
  it.each([['2:1', [2, 1]], ['100 : 42.17', [100, 42.17]], ['3 to 1', [3, 1]], ['100/45', [100, 45]], ['1 : 0,83', [1, 0.83]]] as const)('%s', (text, ratio) => {
    expect(readRatio(text)).toEqual(ratio);
  });
  it.each(['', '2', '2:0', '-2:1', '2:1:1', 'two to one', `${'9'.repeat(100)}:1`])('%s is none', (text) => {
    expect(readRatio(text)).toBeNull();
  });
});

describe('a stored shelf', () => {
  it.each([null, '', '{', '3', '{"id":"x"}', '[null, 3, "x", {"name":"no id"}]'])('%s holds nothing', (text) => {
    expect(readShelf(text)).toEqual([]);
  });
  it('gives formulas back', () => {
    expect(readShelf('[{"id":"a","maxDepthMm":8}, 4]')).toEqual([{ id: 'a', maxDepthMm: 8 }]);
  });
});

describe('pictures', () => {
  it('tells the kind by the first bytes, whatever the name says', () => {
    const text = (content: string) => new TextEncoder().encode(content);
    expect(pictureKind(new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0x0d]))).toBe('image/png');
    expect(pictureKind(new Uint8Array([0xff, 0xd8, 0xff, 0xe0]))).toBe('image/jpeg');
    expect(pictureKind(text('RIFF....WEBPVP8 '))).toBe('image/webp');
    expect(pictureKind(text('<?xml version="1.0"?><svg xmlns="x">'))).toBe('image/svg+xml');
    expect(pictureKind(text('<html><script>'))).toBeNull();
    expect(pictureKind(new Uint8Array(0))).toBeNull();
  });

  it.each([['120mm', 120], ['12 cm', 120], ['2in', 50.8], ['72pt', 25.4], ['6pc', 25.4]] as const)('takes a width of %s for true', (width, mm) => {
    expect(svgWidthMm(`<svg height="3mm" width="${width}">`)).toBeCloseTo(mm, 9);
  });
  it.each(['120', '120px', '50%', '-3mm', '0mm'])('takes no size from %s', (width) => {
    expect(svgWidthMm(`<svg width="${width}">`)).toBeNull();
  });

  it('drops what a style sheet would load and keeps what it colors by', () => {
    const style = '@import "http://x/a.css"; @import url(http://x/b.css); .a{fill:url(#g);stroke:red} .b{fill:url( "http://x/c.png" )}';
    expect(withoutOutsideStyles(style)).not.toMatch(/http|@import/);
    expect(withoutOutsideStyles(style)).toContain('.a{fill:url(#g);stroke:red}');
  });
});
