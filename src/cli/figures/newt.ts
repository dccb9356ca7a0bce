/** A newt walking toward +x, head raised, tail swept, a low wavy crest along back and tail. */
import { outline, spine } from './curve.ts';
import { blend, carve, ellipsoid, smoothMax, tube } from './field.ts';
import type { Bead, Field } from './field.ts';

/** Sections of body and tail from the tail's tip: x, height of the middle, half height, half width, mm. */
const SECTIONS: readonly (readonly [number, number, number, number])[] = [
  [-46, 12.2, 0.3, 0.3],
  [-44, 11.4, 0.9, 0.6],
  [-38, 9.2, 1.9, 1.0],
  [-29, 7.5, 2.7, 1.6],
  [-18, 7.6, 3.3, 2.5],
  [-9, 8.7, 4.0, 3.8],
  [0, 9.5, 4.8, 5.0],
  [10, 10.0, 5.6, 6.4],
  [19, 11.0, 5.2, 6.0],
  [26, 12.9, 4.2, 4.7],
  [32, 15.2, 3.8, 4.6],
  [37, 16.4, 2.4, 3.0],
  [38, 16.4, 0.3, 0.3],
];
/** The crest's height above the back. */
const CREST: readonly (readonly [number, number])[] = [
  [-45, 0.3],
  [-40, 2.0],
  [-31, 3.6],
  [-21, 3.2],
  [-10, 1.0],
  [-5, 1.0],
  [6, 4.4],
  [14, 5.2],
  [21, 3.6],
  [28, 0.6],
  [30, -1],
];
/** How far the tail's lower edge hangs below it. */
const KEEL: readonly (readonly [number, number])[] = [
  [-45, 0.3],
  [-38, 2.0],
  [-28, 1.9],
  [-17, 0.6],
  [-11, -1],
];
/** The left half of the mouth's line, from its corner forward, with the groove's radius. */
const MOUTH: readonly Bead[] = [
  [36.4, 5.2, 15.6, 0.45],
  [40, 4.4, 14.8, 0.5],
  [43.4, 2.9, 14.9, 0.5],
];
const WAVES_PER_MM = 1 / 4.8;
const WAVE_MM = 0.75;
const FIN_HALF_MM = 0.62;

export function newt(): Field {
  const middle = outline(SECTIONS.map(([x, z]) => [x, z]));
  const tall = outline(SECTIONS.map(([x, , h]) => [x, h]));
  const wide = outline(SECTIONS.map(([x, , , w]) => [x, w]));
  const crest = outline(CREST);
  const keel = outline(KEEL);

  const trunk: Field = (x, y, z) => {
    const h = tall(x);
    const w = wide(x);
    const round = (Math.hypot(y / w, (z - middle(x)) / h) - 1) * Math.min(h, w);
    return smoothMax(round, Math.max(-46 - x, x - 38), 0.6);
  };
  const fin: Field = (x, y, z) => {
    const m = middle(x);
    const h = tall(x);
    const wave = WAVE_MM * Math.sin(2 * Math.PI * WAVES_PER_MM * x);
    const top = (z - (m + h + crest(x) + (wave * Math.min(1, Math.max(0.2, crest(x) / 3))))) * 0.85;
    const bottom = m - h - keel(x) - z;
    const side = Math.abs(y) - FIN_HALF_MM - 0.05 * Math.max(0, m + h - z);
    return smoothMax(smoothMax(side, Math.max(top, bottom), 0.8), Math.max(-45.5 - x, x - 30), 0.8);
  };
  const head = blend(
    2.2,
    ellipsoid([35, 0, 16.4], [5.6, 5.4, 3.9]),
    ellipsoid([40.6, 0, 16.0], [4.6, 3.9, 2.7]),
    ellipsoid([35.5, 0, 14.4], [6, 4.4, 2.4]),
  );
  const eyes = blend(0, ellipsoid([38.2, 3.3, 18.9], [1.9, 1.5, 1.7]), ellipsoid([38.2, -3.3, 18.9], [1.9, 1.5, 1.7]));
  const mouth = tube(spine([...MOUTH, [45.4, 0, 15.1, 0.5], ...mirrored(MOUTH)], 4));
  const bodied = blend(1.6, trunk, head);
  const skinned = carve(blend(0.7, blend(1.1, bodied, fin), eyes), mouth, 0.5);
  const legs = blend(
    0.5,
    leg([22, 4.2, 10.4], [19.6, 9.4, 7.6], [25.4, 11.8, 1.7], 0.15, 4),
    leg([22, -4.2, 10.4], [16.4, -9.2, 6.6], [18.6, -12.4, 1.6], -0.1, 4),
    leg([-4, 3.8, 8.2], [-0.4, 9.4, 7.2], [-7.4, 12.2, 1.7], 0.2, 5),
    leg([-4, -3.8, 8.2], [2.6, -9, 6.8], [1.8, -12.4, 1.6], -0.25, 5),
  );
  const whole = blend(1.8, skinned, legs);
  return (x, y, z) => whole(x, y - sway(x), z);
}

/** The swimmer's bend, mm to the side: none at the shoulders, most at the tail. */
function sway(x: number): number {
  const back = Math.max(0, 14 - x) / 60;
  const front = Math.max(0, x - 22) / 24;
  return 9 * back * back * Math.sin(3.6 * back + 0.9) - 2.2 * front * front;
}

/** The other half of a line, from the front back. */
function mirrored(half: readonly Bead[]): Bead[] {
  return half.map(([x, y, z, r]): Bead => [x, -y, z, r]).reverse();
}

/** One leg to a foot with `toes` spread about the direction `heading` (radians from +x, toward the leg's own side). */
function leg(hip: readonly number[], knee: readonly number[], ankle: readonly number[], heading: number, toes: number): Field {
  const side = Math.sign(hip[1]);
  const bones: Bead[] = spine(
    [
      [hip[0], hip[1], hip[2], 2.7],
      [knee[0], knee[1], knee[2], 1.9],
      [ankle[0], ankle[1], ankle[2], 1.25],
    ],
    6,
  );
  const fingers = Array.from({ length: toes }, (_, i) => {
    const spread = toes === 1 ? 0 : i / (toes - 1) - 0.5;
    const angle = heading * side + spread * 1.9 + 0.35 * side;
    const reach = 4.6 - 2.2 * Math.abs(spread);
    const dx = Math.cos(angle);
    const dy = Math.sin(angle);
    return tube([
      [ankle[0], ankle[1], ankle[2] - 0.5, 0.95],
      [ankle[0] + dx * reach * 0.6, ankle[1] + dy * reach * 0.6, 0.95, 0.62],
      [ankle[0] + dx * reach, ankle[1] + dy * reach, 0.6, 0.5],
    ]);
  });
  return blend(0.5, tube(bones), ...fingers);
}
