/**
 * Equivalent time: a label's hours hold at its own temperature, and progress doubles for every 10 °C
 * (common practice, no source). Progress over a room's profile is ∫ 2^((T − atC)/10) dt.
 */
import type { Room } from '../scene/scene.ts';

/** Rise that doubles the rate, °C. */
const DOUBLING_C = 10;

/** Room temperature at a moment, °C: the latest profile entry at or before it, else the room's own. */
export function roomAt(room: Room, minute: number): number {
  let temperature = room.temperatureC;
  for (const entry of room.profile) {
    if (entry.fromMin > minute) break;
    temperature = entry.temperatureC;
  }
  return temperature;
}

/** How much faster than on the label things go at a temperature. */
export function rateAt(temperatureC: number, atC: number): number {
  return 2 ** ((temperatureC - atC) / DOUBLING_C);
}

/**
 * The moment at which the label's `hours` (at `atC`) are done when they begin at `fromMin`, in minutes.
 * Exact for the piecewise constant profile; linear in its entries.
 */
export function momentAfter(room: Room, fromMin: number, hours: number, atC: number): number {
  let left = hours * 60;
  let at = fromMin;
  let rate = rateAt(roomAt(room, fromMin), atC);
  for (const entry of room.profile) {
    if (entry.fromMin <= fromMin) continue;
    const progress = (entry.fromMin - at) * rate;
    if (progress >= left) break;
    left -= progress;
    at = entry.fromMin;
    rate = rateAt(entry.temperatureC, atC);
  }
  return at + left / rate;
}
