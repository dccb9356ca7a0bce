/** By what pours are judged: their labels alone, or labels and heat. And the room made cool enough for one. */
import { plain } from '../../units/format.ts';
import type { EditResult, SceneFile } from './file.ts';
import { withParts } from './parts.ts';
import { changedEach, patched } from './replace.ts';
import { roomC } from './room.ts';

export type HeatModel = 'label' | 'simulated';

export function heatModelOf(file: SceneFile): HeatModel {
  return file.heat?.model ?? 'simulated';
}

export function setHeatModel(file: SceneFile, model: HeatModel): EditResult {
  return withParts(file, { heat: { model } }, model === 'label' ? 'judged by labels alone' : 'judged by labels and heat');
}

/** The room at no time warmer than this. */
export function coolRoom(file: SceneFile, mostC: number): EditResult {
  const profile = file.room?.profile && changedEach(file.room.profile, (entry) => (entry.temperatureC > mostC ? patched(entry, { temperatureC: mostC }) : entry));
  return withParts(file, { room: { temperatureC: Math.min(roomC(file), mostC), profile } }, `room no warmer than ${plain(mostC, 1)}\u00a0°C`, 'room');
}
