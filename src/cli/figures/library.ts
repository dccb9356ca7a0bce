/** The figures of our library, in the order they are offered: their fields, and how finely each is cut into triangles. */
import type { Point, Field } from './field.ts';
import { newt } from './newt.ts';
import { pondSnail } from './pond-snail.ts';
import { anemone, limpet, pebble, rock, seaStar } from './rock-pool.ts';
import { shoreCrab } from './shore-crab.ts';
import { waterLily } from './water-lily.ts';

export interface Recipe {
  /** The library's name for it, also its file's. */
  readonly name: string;
  readonly title: string;
  readonly field: () => Field;
  readonly min: Point;
  readonly max: Point;
  readonly edgeMm: number;
  readonly toleranceMm: number;
}

export const RECIPES: readonly Recipe[] = [
  { name: 'newt', title: 'Newt', field: newt, min: [-48, -20, -2], max: [48, 20, 24], edgeMm: 0.75, toleranceMm: 0.022 },
  { name: 'pond-snail', title: 'Pond snail', field: pondSnail, min: [-24, -14, -3], max: [26, 14, 30], edgeMm: 0.6, toleranceMm: 0.022 },
  { name: 'water-lily', title: 'Water lily', field: waterLily, min: [-25, -25, -1], max: [25, 25, 13], edgeMm: 0.52, toleranceMm: 0.045 },
  { name: 'shore-crab', title: 'Shore crab', field: shoreCrab, min: [-34, -29, -2], max: [34, 26, 20], edgeMm: 0.65, toleranceMm: 0.04 },
  { name: 'sea-star', title: 'Sea star', field: seaStar, min: [-32, -32, -2], max: [32, 32, 13], edgeMm: 0.65, toleranceMm: 0.025 },
  { name: 'limpet', title: 'Limpet', field: limpet, min: [-16, -14, -2], max: [16, 14, 14], edgeMm: 0.6, toleranceMm: 0.03 },
  { name: 'anemone', title: 'Anemone', field: anemone, min: [-22, -22, -2], max: [22, 22, 32], edgeMm: 0.65, toleranceMm: 0.035 },
  { name: 'rock', title: 'Rock', field: rock, min: [-36, -28, -3], max: [36, 28, 24], edgeMm: 1.1, toleranceMm: 0.03 },
  { name: 'pebble', title: 'Pebble', field: pebble, min: [-14, -11, -3], max: [14, 11, 13], edgeMm: 0.7, toleranceMm: 0.01 },
];
