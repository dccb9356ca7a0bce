/** Every list of rows, in the order they are told. */
import type { EvidenceRows } from './evidence-row.ts';
import { rows as molds } from './rows-molds.ts';
import { rows as primitives } from './rows-primitives.ts';
import { rows as polyhedra } from './rows-polyhedra.ts';
import { rows as unions } from './rows-unions.ts';

export const ALL_ROWS: readonly EvidenceRows[] = [molds, primitives, polyhedra, unions];
