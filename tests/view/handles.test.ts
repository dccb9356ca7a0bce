/** What a drag asks for: the thing stays under the finger, the height follows the line, the turn follows the ring. */
import { describe, expect, it } from 'vitest';
import { beginDrag, type DragStart } from '../../src/view/drag.ts';
import { lookFrom, seenAt, sightThrough, turned, type Frame, type Vec3 } from '../../src/view/eye.ts';
import { heightWords, spread } from '../../src/view/marks.ts';
import { rayAtHeight, rayOnVertical, rayRoundRing, wrapDeg } from '../../src/view/ray.ts';
import { seeded } from './seeded.ts';

const FRAME: Frame = { width: 660, height: 720, margin: { left: 24, right: 46, top: 52, bottom: 28 } };
const EYE = lookFrom('corner', { min: [-108, -68, -8], max: [108, 68, 60] }, FRAME);
/** mm and degrees: rounding of doubles at some hundred mm, through a division by the sine of the sight's slope. */
const EXACT = 1e-8;

const through = (point: Vec3, eye = EYE) => {
  const { x, y } = seenAt(eye, point, FRAME);
  return sightThrough(eye, [x, y], FRAME);
};
const start = (more: Partial<DragStart>): DragStart => ({
  id: 'f1', handle: 'body', place: { xMm: 8, yMm: -6, baseMm: 20, turnZDeg: 12 }, grabbed: [10, -4, 27], ray: through([10, -4, 27]),
  reach: { xMm: 100, yMm: 60, floorMm: 0, topMm: 60 }, ...more,
});

describe('sight', () => {
  it('meets a level, a vertical and a ring where the point was, seed 21', () => {
    const random = seeded(21);
    for (let i = 0; i < 300; i++) {
      const eye = turned(EYE, 6 * random(), 0.4 * random());
      const point: Vec3 = [200 * random() - 100, 120 * random() - 60, 60 * random()];
      const sight = through(point, eye);
      const level = rayAtHeight(sight, point[2]);
      expect(Math.hypot(level![0] - point[0], level![1] - point[1])).toBeLessThan(EXACT);
      expect(Math.abs(rayOnVertical(sight, point[0], point[1])! - point[2])).toBeLessThan(EXACT);
      const turn = (Math.atan2(point[1] - 3, point[0] + 5) * 180) / Math.PI;
      expect(Math.abs(rayRoundRing(sight, [-5, 3, point[2]])! - turn)).toBeLessThan(1e-6); // degrees; near the center a mm is many degrees
    }
  });

  it('says nothing where there is nothing to say', () => {
    expect(rayAtHeight({ origin: [0, 0, 10], direction: [1, 0, 0] }, 5)).toBeNull();
    expect(rayAtHeight({ origin: [0, 0, 10], direction: [0, 0, 1] }, 5)).toBeNull();
    expect(rayOnVertical({ origin: [0, 0, 10], direction: [0, 0, -1] }, 5, 5)).toBeNull();
    expect(rayRoundRing({ origin: [0, 0, 10], direction: [0, 0, -1] }, [0, 0, 0])).toBeNull();
  });

  it.each([[0, 0], [180, 180], [-180, 180], [181, -179], [540, 180], [-359, 1], [720, 0]])('a turn of %d is one of %d', (deg, same) => {
    expect(Object.is(wrapDeg(deg), same)).toBe(true);
  });
});

describe('drags', () => {
  it('body: moves by what the grabbed point moved, and not beyond the mold', () => {
    const drag = beginDrag(start({}));
    const moved = drag(through([35, 14, 27]))!;
    expect(moved.xMm).toBeCloseTo(8 + 25, 8);
    expect(moved.yMm).toBeCloseTo(-6 + 18, 8);
    expect('baseMm' in moved).toBe(false);
    expect(drag(through([300, 10, 27]))!.xMm).toBe(100);
  });

  it('body: rides on what it stands on, and keeps its height when it hangs over it', () => {
    const slope = (x: number): number => 20 + 0.1 * (x - 8);
    expect(beginDrag(start({ supportHeightAt: slope }))(through([35, 14, 27]))!.baseMm).toBeCloseTo(22.5, 8);
    expect('baseMm' in beginDrag(start({ supportHeightAt: () => 12 }))(through([35, 14, 27]))!).toBe(false);
  });

  it('float: by what the line says, between floor and rim', () => {
    const drag = beginDrag(start({ handle: 'float', ray: through([8, -6, 50]) }));
    expect(drag(through([8, -6, 61.5]))).toEqual({ id: 'f1', baseMm: expect.closeTo(31.5, 8) });
    expect(drag(through([8, -6, 5]))!.baseMm).toBe(0);
    expect(drag(through([8, -6, 200]))!.baseMm).toBe(60);
  });

  it('bead: by the angle round the ring', () => {
    const center: Vec3 = [8, -6, 20];
    const at = (deg: number): Vec3 => [8 + 40 * Math.cos((deg * Math.PI) / 180), -6 + 40 * Math.sin((deg * Math.PI) / 180), 20];
    const drag = beginDrag(start({ handle: 'bead', grabbed: center, ray: through(at(15)) }));
    expect(drag(through(at(60)))).toEqual({ id: 'f1', turnZDeg: expect.closeTo(57, 7) });
    expect(drag(through(at(-170)))!.turnZDeg).toBeCloseTo(-173, 7);
  });
});

describe('marks', () => {
  it('numbers stand apart in their order, seed 22', () => {
    const random = seeded(22);
    for (let i = 0; i < 200; i++) {
      const values = Array.from({ length: 1 + Math.floor(12 * random()) }, () => 100 * random()).sort((a, b) => a - b);
      const apart = spread(values, 16);
      for (let k = 1; k < apart.length; k++) expect(apart[k] - apart[k - 1]).toBeGreaterThanOrEqual(16 - 1e-9);
      expect(apart.reduce((sum, v) => sum + v, 0)).toBeCloseTo(values.reduce((sum, v) => sum + v, 0), 6);
    }
    expect(spread([0, 40, 80], 16)).toEqual([0, 40, 80]);
  });

  it('height and depth go together', () => {
    expect(heightWords(20, 35)).toBe('20 up, 35 deep');
    expect(heightWords(12.5, 42.5)).toBe('12.5 up, 42.5 deep');
  });
});
