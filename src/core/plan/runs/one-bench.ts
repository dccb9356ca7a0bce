/** Pieces that are poured together stand in one room, at one bench: what their scenes say of these must be the same. */
import type { Scene } from '../../scene/scene.ts';

/** More pieces than one person can keep apart. */
export const MOST_PIECES = 12;

const MINE: readonly (readonly [path: string, of: (scene: Scene) => unknown])[] = [
  ['bench.hours', ({ bench }) => bench.hours],
  ['bench.exceptions', ({ bench }) => bench.exceptions],
  ['bench.scaleG', ({ bench }) => bench.scaleG],
  ['bench.dyeScaleG', ({ bench }) => bench.dyeScaleG],
  ['bench.holdUpMl', ({ bench }) => bench.holdUpMl],
  ['bench.bottlesC', ({ bench }) => bench.bottlesC],
  ['bench.mixMin', ({ run }) => run.mixMin],
  ['bench.moldMin', ({ run }) => run.moldMin],
  ['room.temperatureC', ({ room }) => room.temperatureC],
  ['room.profile', ({ room }) => room.profile],
  ['room.humidity', ({ room }) => room.humidity],
  ['room.sleep', ({ room }) => room.sleep],
];

/** What keeps a piece from being poured beside the first: its place in the list, the field, and what to do; null: nothing. */
export function notOneBench(scenes: readonly Scene[]): { readonly piece: number; readonly path: string; readonly message: string } | null {
  for (const [piece, scene] of scenes.entries()) {
    for (const [path, of] of MINE) {
      const [found, expected] = [JSON.stringify(of(scene)), JSON.stringify(of(scenes[0]))];
      if (found === expected) continue;
      const short = (found ?? '').length + (expected ?? '').length < 60;
      return { piece, path, message: `${short ? `found ${found ?? 'nothing'}; expected ${expected ?? 'nothing'}, as in the first scene` : 'is not what the first scene says; expected the same'}: pieces that are poured together stand at one bench, in one room. Change one of the two.` };
    }
  }
  return null;
}
