/** The board's window on a plane: laws of its maps between mm of the mold and px. */
import { expect, it } from 'vitest';
import { moldAt, shifted, stretchOf, transformOf, whole, zoomedAbout, type SightWindow } from '../../../src/screens/sketch/sight-window.ts';
import { mulberry32 } from '../../plan/random-scenes.ts';

const size = { widthPx: 700, heightPx: 500 };
/** px and mm. Sums of doubles over a board. */
const ROUNDING = 1e-8;

/** Where a canvas transform draws a place, px of the page (Canvas 2D: x' = a x + c y + e, y' = b x + d y + f). */
function drawnAt(window: SightWindow, [x, y]: readonly [number, number], mirrored: boolean): [number, number] {
  const [a, b, c, d, e, f] = transformOf(window, { size, mirrored, dpr: 2 });
  return [(a * x + c * y + e) / 2, (b * x + d * y + f) / 2];
}

const near = (found: readonly number[], expected: readonly number[]) => found.forEach((value, i) => expect(Math.abs(value - expected[i])).toBeLessThan(ROUNDING));

it('shows the whole plane in the middle, 20 px free at its nearer edges', () => {
  const window = whole(size, [100, 60]);
  near(drawnAt(window, [0, 0], false), [350, 250]);
  near(drawnAt(window, [-100, 0], false), [20, 250]);
  near(drawnAt(window, [-100, 0], true), [680, 250]);
});

it('a hand draws where the canvas shows it, zooms about what it points at and carries along what it moves (200 windows)', () => {
  const random = mulberry32(3);
  let window = whole(size, [100, 60]);
  const full = window.scale;
  for (let i = 0; i < 200; i++) {
    const mirrored = random() < 0.5;
    const px = [700 * random(), 500 * random()] as const;
    const place = moldAt(window, px, { size, mirrored });
    near(drawnAt(window, place, mirrored), px);
    const zoomed = zoomedAbout(window, 0.5 + random(), px, { size, full });
    near(moldAt(zoomed, px, { size, mirrored }), place);
    const moved = shifted(zoomed, 30 * random(), -20 * random());
    // What the style sheet makes of the old picture is what is drawn anew (CSS matrix: x' = a x + e).
    const [by, , , , right, down] = stretchOf(window, moved, size).match(/-?[\d.]+(?:e-?\d+)?/g)!.map(Number);
    near([by * px[0] + right, by * px[1] + down], drawnAt(moved, place, mirrored));
    window = moved;
  }
  expect(zoomedAbout(window, 1e9, [0, 0], { size, full }).scale).toBe(40 * full);
});
