/** Sizing the mold by hand: the words beside a grip, and the edit behind a drag. Pure. */
import type { EditResult, SceneFile } from '../../core/scene/edit/file.ts';
import { setMoldSizes } from '../../core/scene/edit/mold.ts';
import { snapHeight, type SnapOptions } from '../../core/scene/edit/snap.ts';
import { lengthIn } from '../../core/units/in-units.ts';
import type { SwitchUnits } from '../../store/piece-state.ts';
import type { MoldSize } from '../../view/props.ts';

/** What a drag makes of a mold at least and at most, mm: past that a size is typed. */
const LEAST_MM = 10;
const MOST_MM = 2000;

const WORDS: Readonly<Record<MoldSize, string>> = { lengthMm: 'long', widthMm: 'wide', diameterMm: 'across', heightMm: 'high' };

/** `210 mm long`, `8 1⁄4 in long`. */
export function moldSizeWords(size: MoldSize, mm: number, units: SwitchUnits): string {
  return `${lengthIn(mm, units.length, 2)} ${WORDS[size]}`;
}

/** A size dragged to: on whole millimeters (sixteenths of an inch), or anywhere while snapping is suspended. The rim stays over the resin. `options` null: as it is given. */
export function sizeMold(file: SceneFile, size: MoldSize, mm: number, options: SnapOptions | null): EditResult {
  const to = options ? snapHeight(mm, [], options).mm : mm;
  const least = size === 'heightMm' ? Math.min(file.mold.heightMm, Math.max(LEAST_MM, file.fillMm)) : LEAST_MM;
  return setMoldSizes(file, { [size]: Math.min(MOST_MM, Math.max(least, to)) });
}
