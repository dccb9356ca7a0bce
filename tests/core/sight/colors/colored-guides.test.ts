/** Colors of what newly shows on each plane: shares in closed form, exact colors, both ways of looking. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { PlaneGuide } from '../../../../src/core/sight/guide.ts';
import { insideRegion, regionArea, type Regions } from '../../../../src/core/sight/region.ts';
import { openRegions } from '../../../../src/files/regions.ts';
import { box } from '../../solid/made-meshes.ts';
import { coloredGuides, painted, rod, sharesOf } from './made-colors.ts';

let regions: Regions;
beforeAll(async () => {
  regions = await openRegions();
});

/** A box's sides in the order of `box`: bottom, top, front, back, left, right, two triangles each. */
const SIDES = ['#7a4a21', '#e0c040', '#c02020', '#2060c0', '#208040', '#f0f0f0'];
const [BOTTOM, TOP, FRONT, BACK, LEFT, RIGHT] = SIDES;
const cube = box(30, 30, 30);
const six = painted(cube, (t) => SIDES[t >> 1]);

const shares = (guides: readonly PlaneGuide[], planeId: string) => sharesOf(guides.find((guide) => guide.planeId === planeId)!);

describe('a cube of six colors', () => {
  it('upright shows only its top, on the plane nearest the viewer; through the floor only its bottom', () => {
    for (const [cast, hex, nearest, other] of [['face-up', TOP, 'p1', 'p0'], ['face-down', BOTTOM, 'p0', 'p1']] as const) {
      const guides = coloredGuides(cube, six, regions, { heights: [8, 22], cast });
      expect(shares(guides, nearest)).toEqual({ [hex]: 1 });
      expect(guides.find(({ planeId }) => planeId === other)!.colors).toBeUndefined();
    }
  });

  it.each([
    ['face-up', [22, 30, 38], TOP, BACK],
    ['face-down', [22, 14, 6], BOTTOM, FRONT],
  ] as const)('standing on an edge shows two sides, half of each on every plane, %s', (cast, heights, one, other) => {
    // Turned by 45° about x: its top to the front, its back up. Seen from below: bottom and front.
    const guides = coloredGuides(cube, six, regions, { heights, turnDeg: [45, 0, 0], cast });
    for (const id of ['p0', 'p1', 'p2']) {
      const found = shares(guides, id);
      expect(Object.keys(found).sort()).toEqual([one, other].sort());
      // Bands of 8 mm and more, their edges half a pixel of 0.085 mm off at most.
      for (const share of Object.values(found)) expect(Math.abs(share - 0.5)).toBeLessThan(0.0425 / 8);
    }
  });

  it('standing on a corner shows the three sides round the upper one, a third each', () => {
    // The turn that brings (1, 1, 1) up: about x by 45°, then about y by atan(1/√2) the other way.
    const tilt = -(Math.atan(Math.SQRT1_2) * 180) / Math.PI;
    const [guide] = coloredGuides(cube, six, regions, { heights: [40], turnDeg: [45, tilt, 0] });
    const found = sharesOf(guide);
    expect(Object.keys(found).sort()).toEqual([TOP, BACK, RIGHT].sort());
    for (const share of Object.values(found)) expect(Math.abs(share - 1 / 3)).toBeLessThan(0.01);
    expect(Object.keys(found)).not.toContain(LEFT);
  });
});

describe('for an eye to the right of a cube', () => {
  const eye = { eyeMm: 150, eyeXMm: 160, eyeYMm: -2, stretch: false };

  it('its right side shows on every plane, its top on the nearest alone', () => {
    for (const index of [1, 1.5]) {
      const guides = coloredGuides(cube, six, regions, { heights: [8, 16, 25], read: eye, index });
      for (const id of ['p0', 'p1']) expect(shares(guides, id)).toEqual({ [RIGHT]: 1 });
      expect(Object.keys(shares(guides, 'p2')).sort()).toEqual([TOP, RIGHT].sort());
    }
  });

  it('in resin that does not bend light, as wide as straight lines have it', () => {
    // Where a line from the eye to (x, z) crosses the face at 60 mm. The cube stands from x −12 to 18 and up to 31 mm.
    const crossing = (x: number, z: number): number => eye.eyeXMm + (eye.eyeMm / (eye.eyeMm + 60 - z)) * (x - eye.eyeXMm);
    const share = (crossing(18, 25) - crossing(18, 31)) / (crossing(18, 25) - crossing(-12, 25));
    const guides = coloredGuides(cube, six, regions, { heights: [25], read: eye, index: 1 });
    expect(Math.abs(shares(guides, 'p0')[RIGHT] - share)).toBeLessThan(0.005);
  });

  it('built deeper, it shows the same shares on planes that look as deep', () => {
    const flat = coloredGuides(cube, six, regions, { heights: [16], turnDeg: [45, 0, 0], index: 1, read: { ...eye, eyeXMm: 3 } });
    const deep = coloredGuides(cube, six, regions, { heights: [1 + 1.25 * 15], turnDeg: [45, 0, 0], index: 1.25, read: { ...eye, eyeXMm: 3, stretch: true } });
    const [one, other] = [flat, deep].map((guides) => shares(guides, 'p0'));
    for (const hex of [TOP, BACK]) expect(Math.abs(one[hex] - other[hex])).toBeLessThan(0.01);
  });
});

describe('a striped rod lying down', () => {
  const RADIUS = 20;
  const STRIPES: readonly (readonly [fromDeg: number, toDeg: number, hex: string])[] = [[0, 20, '#d04030'], [20, 40, '#f0e0a0'], [40, 70, '#305090'], [70, 180, '#202020']];
  const { mesh, degrees } = rod(RADIUS, 60, 720);
  const colors = painted(mesh, (t) => STRIPES.find(([, to]) => degrees(t) < to)![2]);
  const sin = (deg: number) => Math.sin((deg * Math.PI) / 180);

  it('shows of each stripe on each plane what its angle covers: differences of sines', () => {
    // The axis stands at 21 mm; the angle from straight up at which a plane cuts the mantle.
    const heights = [23, 28, 33, 37, 40];
    const cuts = heights.map((z) => (Math.acos((z - 21) / RADIUS) * 180) / Math.PI);
    const guides = coloredGuides(mesh, colors, regions, { heights });
    guides.forEach((guide, n) => {
      const [from, to] = [cuts[n + 1] ?? 0, cuts[n]];
      const found = sharesOf(guide);
      const band = sin(to) - sin(from);
      let seen = 0;
      for (const [a, b, hex] of STRIPES) {
        const share = Math.max(0, sin(Math.min(b, to)) - sin(Math.max(a, from))) / band;
        // A touch of less than 2 % goes with its neighbor.
        if (share < 0.025) continue;
        seen++;
        // Two edges, each half a pixel off at most, and a touch taken in.
        expect(Math.abs((found[hex] ?? 0) - share)).toBeLessThan(guide.colors!.picture.pixelMm / (RADIUS * band) + 0.025);
      }
      expect(Object.keys(found)).toHaveLength(seen);
    });
  });

  it('has a color on every pixel of what newly shows, one pixel beyond, and nowhere else', () => {
    for (const { colors: own, fresh } of coloredGuides(mesh, colors, regions, { heights: [23, 33, 40], turnDeg: [0, 10, 30] })) {
      const { picture: { pixelMm, leftMm, topMm, width, height, rgba } } = own!;
      const at = (x: number, y: number) => insideRegion(fresh, leftMm + (x + 0.5) * pixelMm, topMm - (y + 0.5) * pixelMm);
      let painted = 0;
      for (let y = 0; y < height; y += 7) {
        for (let x = 0; x < width; x += 7) {
          const shown = rgba[4 * (y * width + x) + 3] === 255;
          if (at(x, y)) expect(shown).toBe(true);
          else if (shown) expect([-1, 0, 1].some((dy) => [-1, 0, 1].some((dx) => at(x + dx, y + dy)))).toBe(true);
          if (at(x, y)) painted++;
        }
      }
      // What shows, counted in every 49th pixel, is the region's own area.
      expect(Math.abs(painted * 49 * pixelMm ** 2 - regionArea(fresh)) / regionArea(fresh)).toBeLessThan(0.03);
    }
  });

  it('is the same from run to run, and turned upside down in a face-down casting the same from below', () => {
    const heights = [23, 33, 40];
    const up = coloredGuides(mesh, colors, regions, { heights });
    const again = coloredGuides(mesh, colors, regions, { heights });
    expect(again.map(({ colors: own }) => own!.main)).toEqual(up.map(({ colors: own }) => own!.main));
    again.forEach(({ colors: own }, i) => expect(Buffer.compare(Buffer.from(own!.picture.rgba), Buffer.from(up[i].colors!.picture.rgba))).toBe(0));
    const down = coloredGuides(mesh, colors, regions, { heights: heights.map((z) => 42 - z), turnDeg: [180, 0, 0], cast: 'face-down' });
    for (const guide of up) {
      const twin = shares(down, guide.planeId);
      for (const [hex, share] of Object.entries(sharesOf(guide))) expect(Math.abs(twin[hex] - share)).toBeLessThan(0.01);
    }
  });
});
