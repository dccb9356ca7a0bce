/** What is being tried on Pours, as changes of the piece. Pure. */
import { benchHours } from '../../core/scene/edit/bench.ts';
import type { HoursFile, SceneFile } from '../../core/scene/edit/file.ts';
import { USUAL_DRY_H } from '../../core/scene/edit/hold.ts';
import { roomC, roomProfile } from '../../core/scene/edit/room.ts';
import { thingsOf } from '../../core/scene/edit/things.ts';
import type { Trial } from '../../core/plan/what-if.ts';

export interface Tries {
  readonly roomC: number | null;
  /** By the line of the bench's hours. */
  readonly hours: ReadonlyMap<number, Pick<HoursFile, 'from' | 'to'>>;
  /** By fill, from the floor up. */
  readonly formulas: ReadonlyMap<number, string>;
  readonly dryH: number | null;
}

export const NOTHING_TRIED: Tries = { roomC: null, hours: new Map(), formulas: new Map(), dryH: null };

/** Hours that every plane dries; null where they differ. */
export function usualDryH(file: SceneFile): number | null {
  const hours = new Set(thingsOf(file).flatMap((placement) => (placement.kind === 'plane' ? [placement.dryH ?? USUAL_DRY_H] : [])));
  return hours.size === 1 ? [...hours][0] : null;
}

/** Only what is not so already. */
export function trialsFrom(file: SceneFile, { roomC: c, hours, formulas, dryH }: Tries): Trial[] {
  const lines = benchHours(file);
  return [
    ...(c !== null && (c !== roomC(file) || roomProfile(file).length > 0) ? [{ kind: 'room', temperatureC: c } as const] : []),
    ...lines.flatMap(({ days, from, to }, at): Trial[] => {
      const other = hours.get(at);
      if (!other || (other.from === from && other.to === to)) return [];
      return [{ kind: 'hours', on: lines.length === 1 ? null : { days }, ...other }];
    }),
    ...file.fills.flatMap((fill, at): Trial[] => {
      const formula = formulas.get(at);
      return formula === undefined || formula === fill.formula ? [] : [{ kind: 'fill', at, formula }];
    }),
    ...(dryH !== null && dryH !== usualDryH(file) ? [{ kind: 'dry', plane: null, hours: dryH } as const] : []),
  ];
}
