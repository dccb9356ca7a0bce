/** What materials are called on screen: figures' and beds' (the keys of MATERIALS) and molds'. */
import type { MoldMaterial } from '../scene/scene.ts';

const WORDS: Readonly<Record<string, string>> = {
  pla: 'PLA print',
  petg: 'PETG print',
  'print-resin': 'resin print',
  polyurethane: 'cast polyurethane',
  'polymer-clay': 'polymer clay',
  'epoxy-putty': 'epoxy putty',
  'air-dry-clay': 'air-dry clay',
};

const MOLD_WORDS: Readonly<Record<MoldMaterial, string>> = { silicone: 'silicone', hdpe: 'HDPE', acrylic: 'acrylic', glass: 'glass', wood: 'wood', foam: 'foam board' };

/** `PLA print`, `driftwood`; a material that is not on the list as it is written. */
export function materialWords(material: string): string {
  return Object.hasOwn(WORDS, material) ? WORDS[material] : material;
}

export function moldMaterialWords(material: string): string {
  return Object.hasOwn(MOLD_WORDS, material) ? MOLD_WORDS[material as MoldMaterial] : material;
}
