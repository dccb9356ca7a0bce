/** A fill's clarity: what a chip of the dye lets through, how much light is to pass the fill, and the scale the dye is weighed on. */
import { capital, plain } from '../../units/format.ts';
import type { Swatch, TintTarget } from '../scene.ts';
import { done, refused, type EditResult, type SceneFile, type TintFile } from './file.ts';
import { withParts } from './parts.ts';
import { patched, replacedAt } from './replace.ts';
import { labelMm } from './things.ts';

/** What a target is until it is typed: half of the light, the same in every pour, twice as much in each pour farther in where it deepens. */
const FIRST_TARGET: TintTarget = { passes: 0.5, how: 'even', ratio: 2 };

/** Null: none, or in a form of somebody else's. */
export function swatchOf(tint: TintFile | undefined): Swatch | null {
  const swatch = tint?.swatch as Partial<Swatch> | undefined;
  return isNumbers(swatch, ['percent', 'mm', 'passes']) ? (swatch as Swatch) : null;
}

export function targetOf(tint: TintFile | undefined): TintTarget | null {
  const target = tint?.target as Partial<TintTarget> | undefined;
  return isNumbers(target, ['passes']) ? { ...FIRST_TARGET, ...target } : null;
}

/** All three numbers of a chip that was poured: percent of dye, thickness, share of light that passes it. `null` takes it out, and the target with it. */
export function setSwatch(file: SceneFile, at: number, swatch: Swatch | null): EditResult {
  const tint = file.fills[at]?.tint;
  if (!tint) return refused('This fill is clear. Tint it first.');
  if (swatch !== null && tint.swatch !== undefined && !swatchOf(tint)) return refused('This fill holds a swatch in a form this version does not know. Take it out of the file first.');
  return withTint(file, at, swatch === null ? { swatch: undefined, target: undefined } : { swatch: { ...(swatchOf(tint) ?? {}), ...swatch } }, swatch === null ? 'no chip' : 'what the chip lets through');
}

/** How clear the fill is to be; the dye is worked out for each pour. `null`: as much dye in every pour as is typed. */
export function setTarget(file: SceneFile, at: number, target: Partial<TintTarget> | null): EditResult {
  const tint = file.fills[at]?.tint;
  if (!tint) return refused('This fill is clear. Tint it first.');
  if (target === null) return withTint(file, at, { target: undefined }, 'dye as typed');
  if (!swatchOf(tint)) return refused('How clear a fill gets is worked out from a chip you poured. Say first what the chip lets through.');
  const known = targetOf(tint);
  if (tint.target !== undefined && !known) return refused('This fill holds a clarity in a form this version does not know. Take it out of the file first.');
  const next = { ...FIRST_TARGET, ...known, ...target };
  return withTint(file, at, { target: next }, `${plain(next.passes * 100, 1)}\u00a0% of the light through`);
}

/** One step of the scale that dye is weighed on; `null`: the scale of the resin. */
export function setDyeScale(file: SceneFile, g: number | null): EditResult {
  return withParts(file, { bench: { dyeScaleG: g ?? undefined } }, g === null ? 'dye on the usual scale' : `dye weighed to ${plain(g, 4)}\u00a0g`, 'one step of the scale for dye');
}

const FIELD_WORDS: Readonly<Record<string, string>> = { percent: 'dye in the chip', mm: 'thickness of the chip', passes: 'light that passes', ratio: 'from pour to pour' };

function withTint(file: SceneFile, at: number, patch: Partial<Record<'swatch' | 'target', object | undefined>>, words: string): EditResult {
  const fill = file.fills[at];
  const result = done(patched(file, { fills: replacedAt(file.fills, at, patched(fill, { tint: patched(fill.tint!, patch) })) }), `fill to ${labelMm(fill.toMm)}: ${words}`);
  if (result.ok) return result;
  const field = /^fills\[\d+\]\.tint\.(?:swatch|target)\.?(\w*):? (.*)$/s.exec(result.reason);
  return field ? refused(`${capital(FIELD_WORDS[field[1]] ?? 'clarity')}: ${field[2]}`) : result;
}

function isNumbers(value: unknown, keys: readonly string[]): boolean {
  return typeof value === 'object' && value !== null && keys.every((key) => typeof (value as Record<string, unknown>)[key] === 'number');
}
