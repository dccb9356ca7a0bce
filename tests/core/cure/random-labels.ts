/** Labels drawn from a seed: any class, any sizes that a bench has seen, times that may well contradict one another. */
import { completeFormula } from '../../../src/core/resin/formula.ts';
import type { Family, Formula, Mold, MoldMaterial, Room } from '../../../src/core/scene/scene.ts';
import { seeded } from '../../view/seeded.ts';

const CLASSES: readonly Family[] = ['general', 'low-viscosity', 'coating', 'deep-pour', 'uv'];
const MATERIALS: readonly MoldMaterial[] = ['silicone', 'hdpe', 'acrylic', 'glass', 'wood', 'foam'];

export interface Drawn {
  readonly label: Formula;
  readonly mold: Mold;
  readonly room: Room;
  /** Of the pours, as shares of the label's depth, and the hours between them. */
  readonly depthShares: readonly number[];
  readonly waitsH: readonly number[];
}

export function drawnLabel(seed: number): Drawn {
  const next = seeded(seed);
  const log = (low: number, high: number) => low * (high / low) ** next();
  const pick = <T>(all: readonly T[]) => all[Math.floor(next() * all.length)];
  const bondOpensH = log(0.1, 100);
  const label = completeFormula({
    id: `label-${seed}`, family: pick(CLASSES), maxDepthMm: log(1.5, 100), potLifeMin: log(10, 600), potLifeMassG: log(20, 1000), atC: 15 + 20 * next(), bondOpensH,
    bondClosesH: bondOpensH * log(1, 5), scuffableH: bondOpensH * log(1, 5), paintableH: bondOpensH * log(1, 5), demoldH: bondOpensH * log(1, 10), densityAGPerMl: log(1, 1.3),
  });
  const round = next() < 0.4;
  const common = { heightMm: 300, draftDeg: 0, material: pick(MATERIALS), wallMm: log(1, 30), keep: false };
  const mold: Mold = round ? { shape: 'round', diameterMm: log(30, 400), ...common } : { shape: 'box', lengthMm: log(40, 500), widthMm: log(40, 500), cornerRadiusMm: 0, ...common };
  const room: Room = { temperatureC: 15 + 20 * next(), profile: next() < 0.5 ? [{ fromMin: 60 * log(1, 40), temperatureC: 15 + 20 * next() }] : [] };
  const pours = 1 + Math.floor(3 * next());
  return { label, mold, room, depthShares: Array.from({ length: pours }, () => 0.3 + next()), waitsH: Array.from({ length: pours }, () => bondOpensH * log(0.5, 4)) };
}

/** The label's own situation: wide, thin-walled, one open face, at its own temperature. */
export function ownMold(): Mold {
  return { shape: 'box', lengthMm: 3000, widthMm: 3000, heightMm: 300, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8.75, keep: false };
}
