/** Every list of rows, in the order they are told. */
import type { EvidenceRows } from './evidence-row.ts';
import { rows as molds } from './rows-molds.ts';
import { rows as primitives } from './rows-primitives.ts';
import { rows as bodies } from './rows-body.ts';
import { rows as air } from './rows-air.ts';
import { rows as bench } from './rows-bench.ts';
import { rows as calendar } from './rows-calendar.ts';
import { rows as cases } from './rows-cases.ts';
import { rows as colors } from './rows-colors.ts';
import { rows as exportsRows } from './rows-exports.ts';
import { rows as formats } from './rows-formats.ts';
import { rows as heat } from './rows-heat.ts';
import { rows as heatCure } from './rows-heat-cure.ts';
import { rows as heatOrder } from './rows-heat-order.ts';
import { rows as heatStacks } from './rows-heat-stacks.ts';
import { rows as cure } from './rows-cure.ts';
import { rows as meshes } from './rows-meshes.ts';
import { rows as money } from './rows-money.ts';
import { rows as paper } from './rows-paper.ts';
import { rows as polyhedra } from './rows-polyhedra.ts';
import { rows as runs } from './rows-runs.ts';
import { rows as sections } from './rows-sections.ts';
import { rows as sight } from './rows-sight.ts';
import { rows as tint } from './rows-tint.ts';
import { rows as unions } from './rows-unions.ts';
import { rows as units } from './rows-units.ts';

export const ALL_ROWS: readonly EvidenceRows[] = [molds, primitives, polyhedra, meshes, sections, sight, colors, formats, unions, units, calendar, bench, air, cases, exportsRows, money, tint, runs, paper, heat, heatCure, heatOrder, heatStacks, cure, bodies];
