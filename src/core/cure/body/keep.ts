/** The records of a run as it goes on: after every step, hottest points, slices and courses. */
import type { Body, BodyHeat, BodyOptions } from './body.ts';
import type { BodyCells } from './cells.ts';
import { cellAt, type BodyGrid } from './grid.ts';
import { coldest, recordHottest, sliceOf, type BodySlice, type Hottest, type StepSpan } from './record.ts';
import { hottestSkinC, skinOf, type Skin } from './skin.ts';

export interface Kept {
  readonly grid: BodyGrid;
  readonly cells: BodyCells;
  /** Where each pour's curing cells begin; one more entry than pours. */
  readonly curingFrom: readonly number[];
  readonly watched: readonly number[];
  readonly skins: readonly Skin[];
  readonly sliceJ: number;
  readonly hottest: Hottest[];
  readonly hottestEver: Hottest[];
  readonly slices: (BodySlice | null)[];
  readonly slicesAt: BodySlice[];
  readonly solidHottest: Hottest[];
  readonly solidSurfaceC: number[];
  readonly probeCell: Int32Array;
  readonly probeHottest: Hottest[];
  readonly courseS: number[];
  readonly courseC: number[];
  readonly probesC: number[][];
  /** Moments of slices still to come, ascending. */
  sliceAtS: readonly number[];
}

export function keepingFor({ grid, pours, watched }: Body, cells: BodyCells, curingFrom: readonly number[], options: BodyOptions): Kept {
  const probes = options.probesMm ?? [];
  return {
    grid, cells, curingFrom, watched,
    skins: watched.map((solid) => skinOf(grid, cells, solid)),
    sliceJ: rowNear(grid, options.sliceYMm ?? 0),
    hottest: pours.map(coldest),
    hottestEver: pours.map(coldest),
    slices: pours.map(() => null),
    slicesAt: [],
    solidHottest: watched.map(coldest),
    solidSurfaceC: watched.map(() => -Infinity),
    probeCell: Int32Array.from(probes, (point) => cellOf(grid, point)),
    probeHottest: probes.map(coldest),
    courseS: [],
    courseC: [],
    probesC: probes.map(() => []),
    sliceAtS: [...(options.sliceAtS ?? [])].sort((a, b) => a - b),
  };
}

/** @param poured how many pours are there; cells below `to` are. */
export function keep(kept: Kept, span: StepSpan, poured: number, to: number): void {
  const { grid, cells, curingFrom } = kept;
  const { resinCell } = cells;
  const { afterC } = span;
  const endS = span.atS + span.lengthS;
  const slice = (): BodySlice => sliceOf(grid, afterC, cells.capacityJPerK, { j: kept.sliceJ, to, atS: endS });
  for (let p = 0; p < poured; p++) {
    recordHottest(kept.hottestEver[p], grid, resinCell, { from: curingFrom[p], to: curingFrom[p + 1], span });
  }
  const newest = poured - 1;
  const was = kept.hottest[newest].temperatureC;
  recordHottest(kept.hottest[newest], grid, resinCell, { from: curingFrom[newest], to: curingFrom[poured], span });
  if (kept.hottest[newest].temperatureC > was) kept.slices[newest] = slice();
  kept.skins.forEach((skin, s) => {
    let there = skin.own.length;
    while (there > 0 && skin.own[there - 1] >= to) there--;
    recordHottest(kept.solidHottest[s], grid, skin.own, { from: 0, to: there, span });
    kept.solidSurfaceC[s] = Math.max(kept.solidSurfaceC[s], hottestSkinC(skin, afterC, to));
  });
  kept.courseS.push(endS);
  kept.courseC.push(hottestNow(afterC, resinCell, curingFrom[newest], curingFrom[poured]));
  kept.probeHottest.forEach((record, p) => {
    const there = kept.probeCell[p] < to;
    kept.probesC[p].push(there ? afterC[kept.probeCell[p]] : NaN);
    if (there) recordHottest(record, grid, kept.probeCell, { from: p, to: p + 1, span });
  });
  while (kept.sliceAtS.length > 0 && kept.sliceAtS[0] <= endS) {
    kept.slicesAt.push(slice());
    kept.sliceAtS = kept.sliceAtS.slice(1);
  }
}

export function toldOf(kept: Kept, poured: number): Pick<BodyHeat, 'pours' | 'solids' | 'slices' | 'course' | 'probes'> {
  return {
    pours: kept.hottest.slice(0, poured).map((hottest, p) => ({ hottest, hottestEver: kept.hottestEver[p], slice: kept.slices[p] })),
    solids: kept.watched.map((solid, s) => ({ solid, hottest: kept.solidHottest[s], surfaceC: kept.solidSurfaceC[s] })),
    slices: kept.slicesAt,
    course: {
      atS: Float64Array.from(kept.courseS),
      hottestC: Float64Array.from(kept.courseC),
      probesC: kept.probesC.map((course) => Float64Array.from(course)),
    },
    probes: kept.probeHottest,
  };
}

function hottestNow(temperatureC: Float64Array, cells: Int32Array, from: number, to: number): number {
  let hottest = -Infinity;
  for (let c = from; c < to; c++) if (temperatureC[cells[c]] > hottest) hottest = temperatureC[cells[c]];
  return hottest;
}

function rowNear({ kind, yMm }: BodyGrid, wantedMm: number): number {
  return kind === 'rings' ? 0 : intervalOf(yMm, wantedMm);
}

/** The cell a point lies in; of one outside the grid the nearest. */
function cellOf(grid: BodyGrid, [xMm, yMm, zMm]: readonly [number, number, number]): number {
  return cellAt(grid, intervalOf(grid.xMm, xMm), rowNear(grid, yMm), intervalOf(grid.zMm, zMm));
}

function intervalOf(lines: Float64Array, at: number): number {
  let i = 0;
  while (i < lines.length - 2 && at >= lines[i + 1]) i++;
  return i;
}
