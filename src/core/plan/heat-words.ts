/** Heat in the artist's words: how warm, what makes it so, what is safe. Limits are shown no looser than they are. */
import type { Mold, MoldMaterial } from '../scene/scene.ts';
import { mm, plain, span, tenthBelow } from '../units/format.ts';
import type { Pour, PourHeat } from './plan.ts';

const NBSP = '\u00a0';
/** A sooner peak is that of the fresh mix, minutes. */
const AT_ONCE_MIN = 5;

/** `34 to 48 °C`; one number where both ends look the same. */
export function warmth([lowC, highC]: readonly [number, number]): string {
  const [low, high] = [plain(Math.floor(lowC), 0), plain(Math.ceil(highC), 0)];
  return low === high ? `${low}${NBSP}°C` : `${low} to ${high}${NBSP}°C`;
}

/** `warm, 34 to 48 °C`. */
export function heatLevel({ words, rangeC }: Pick<PourHeat, 'words' | 'rangeC'>): string {
  return words === "can't be told" ? `can’t be told, ${warmth(rangeC)}` : `${words}, ${warmth(rangeC)}`;
}

/** `warm, 34 to 48 °C at its warmest, after about 6 h`; a mix from warm bottles may be at its warmest at once. */
export function warmest(heat: Pick<PourHeat, 'words' | 'rangeC' | 'afterH'>): string {
  return `${heatLevel(heat)} at its warmest, ${heat.afterH * 60 < AT_ONCE_MIN ? 'as it is poured' : `after about ${span(heat.afterH * 60)}`}`;
}

/** A safe depth, down to the tenth. */
export function safeDepth({ safeDepthMm }: Pick<PourHeat, 'safeDepthMm'>): string {
  return mm(tenthBelow(safeDepthMm));
}

/** How warm the finished piece may get, in words, by the pour that softens first; null where heat was not judged. */
export function softensFirst(pours: readonly Pick<Pour, 'heat'>[]): string | null {
  const all = pours.flatMap(({ heat }) => (heat ? [heat.softens] : []));
  return all.length === 0 ? null : all.reduce((a, b) => (b.fromC < a.fromC ? b : a)).words;
}

/** What the eye will make of the pour that lets bubbles out the least; null where heat was not judged. */
export function clearsLeast(pours: readonly Pick<Pour, 'index' | 'heat'>[]): string | null {
  const all = pours.flatMap(({ index, heat }) => (heat ? [{ index, bubbles: heat.bubbles }] : []));
  if (all.length === 0) return null;
  const { index, bubbles } = all.reduce((a, b) => (b.bubbles.smallestMm > a.bubbles.smallestMm ? b : a));
  return all.length === 1 ? bubbles.words : `Pour ${index} lets bubbles out the least. ${bubbles.words}`;
}

const WALL_WORDS: Readonly<Record<MoldMaterial, string>> = {
  silicone: 'the silicone wall', hdpe: 'the plastic wall', acrylic: 'the acrylic wall', glass: 'the glass wall', wood: 'the wooden wall', foam: 'the foam wall',
};

/** What makes a pour warmer than the label's: a clause. */
export function causeWords(cause: PourHeat['cause'], mold: Mold): string {
  switch (cause) {
    case 'depth': return 'so much resin at once warms itself';
    case 'room': return 'the room is warmer than the label’s';
    case 'curing box': return 'the curing box is warmer than the label’s room';
    case 'narrow mold': return 'the mold is narrow and its walls hold the heat';
    case 'warm layer below': return 'what lies below is still warm';
    case 'insulating wall': return `${WALL_WORDS[mold.material]} holds the heat`;
    case 'cup': return 'in a cup it warms faster than the label has it';
    case 'warm bottles': return 'the mix comes warm from its bottles';
  }
}

/** The room, held from the pour on, that would be too much: down to the half degree. */
export function tooWarmRoom({ tooWarmRoomC }: Pick<PourHeat, 'tooWarmRoomC'>): string {
  return `${plain(toldC(tooWarmRoomC))}${NBSP}°C`;
}

function toldC(tooWarmRoomC: number): number {
  return Math.floor(tooWarmRoomC * 2) / 2;
}

/** The room bears the pour, but next to nothing is left: told to the half degree it would be called too warm itself. */
export function atItsLimit({ tooWarmRoomC, roomC }: Pick<PourHeat, 'tooWarmRoomC' | 'roomC'>): boolean {
  return tooWarmRoomC >= roomC && toldC(tooWarmRoomC) <= roomC;
}

/** Said of every pour that is judged. */
export function roomLimit(heat: Pick<PourHeat, 'tooWarmRoomC' | 'roomC'>): string {
  return atItsLimit(heat) ? 'A room any warmer would be too much for it.' : `A room of ${tooWarmRoom(heat)} would be too much for it.`;
}
