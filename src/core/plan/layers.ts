/** Layers: the resin between two neighboring stops. */
import type { Displacement } from '../solid/displacement.ts';
import { moldVolumeBelow } from '../solid/mold.ts';
import type { Mold, Scene } from '../scene/scene.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import type { Layer } from './plan.ts';
import { stopsOf, type StopAt } from './stops.ts';

const MM3_PER_ML = 1000;

export interface Content {
  readonly grossMl: number;
  readonly displacedMl: number;
  readonly netMl: number;
}

/** What the mold holds between two heights, and what is left of it for resin. */
export function contentOf(mold: Mold, displacement: Displacement, fromMm: number, toMm: number): Content {
  const grossMl = (moldVolumeBelow(mold, toMm) - moldVolumeBelow(mold, fromMm)) / MM3_PER_ML;
  const displacedMl = Math.min(displacement.displacedMl(fromMm, toMm), grossMl);
  return { grossMl, displacedMl, netMl: grossMl - displacedMl };
}

export interface LayerAt extends Layer {
  readonly top: StopAt;
  /** The formula its fill names, where the planner may choose another. */
  readonly asked?: string;
}

/**
 * The layers from the floor up. Where beds without voids close the mold's whole section a layer starts at the
 * height where it first opens; one that never opens is no layer.
 */
export function layersOf(scene: Scene, displacement: Displacement): LayerAt[] {
  const layers: LayerAt[] = [];
  let below = 0;
  for (const stop of stopsOf(scene)) {
    const opens = displacement.opensAt(below, stop.atMm);
    // A section that opens within the tolerance of one height is open: facets of curved walls say so a little late.
    const fromMm = opens !== null && opens - below <= STOP_TOLERANCE_MM ? below : opens;
    if (fromMm !== null && fromMm < stop.atMm) {
      layers.push({
        index: layers.length + 1,
        fromMm,
        toMm: stop.atMm,
        stops: stop.causes,
        top: stop,
        formula: formulaAt(scene, (fromMm + stop.atMm) / 2),
        ...contentOf(scene.mold, displacement, fromMm, stop.atMm),
      });
    }
    below = stop.atMm;
  }
  return layers;
}

/** The fill that holds a height. */
export function fillAt(scene: Scene, atMm: number): Scene['fills'][number] {
  return scene.fills.find((fill) => atMm <= fill.toMm) ?? scene.fills[scene.fills.length - 1];
}

function formulaAt(scene: Scene, atMm: number): string {
  return fillAt(scene, atMm).formula;
}
