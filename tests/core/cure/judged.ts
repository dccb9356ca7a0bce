/** A whole build at once: what the planner asks pour by pour. */
import type { HeatSeries } from '../../../src/core/cure/verdict-series.ts';
import type { Build, Fix, JudgeOptions, PourVerdict } from '../../../src/core/cure/verdict-types.ts';
import { beginBuild, type JudgedPour } from '../../../src/core/cure/verdict.ts';

/** All pours of a build, in order. */
export function judgeBuild(build: Build, options?: JudgeOptions): PourVerdict[] {
  return judgedPours(build, options).map(({ verdict }) => verdict);
}

/** What would help one pour of a build. */
export function fixesFor(build: Build, index: number): Fix[] {
  return judgedPours(upTo(build, index))[index].fixes();
}

/** A pour's temperatures, for its chart. */
export function seriesFor(build: Build, index: number): HeatSeries {
  return judgedPours(upTo(build, index))[index].series();
}

function upTo(build: Build, index: number): Build {
  return { ...build, pours: build.pours.slice(0, index + 1) };
}

function judgedPours({ mold, room, pours }: Build, options?: JudgeOptions): JudgedPour[] {
  const all: JudgedPour[] = [];
  let below = beginBuild(mold, room, options);
  for (const pour of pours) {
    all.push(below.pour(pour));
    below = all[all.length - 1].then;
  }
  return all;
}
