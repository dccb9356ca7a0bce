/**
 * The resin classes that ship as data: four casting classes and the light-cured accent class.
 * Class values, good for a first plan and never permission to exceed a label: the person types the label's.
 * Every value is the typical one (the middle of common practice), the range seen, and where it comes from.
 */
import type { Family } from '../scene/scene.ts';

export type Provenance =
  | 'common practice, no source'
  | 'from memory, not checked'
  | 'published: conservation epoxies measured 1.515–1.565 (J. Am. Inst. Conserv. 28(2) 1989, 32(3) 1993)'
  | 'published: casting-epoxy support page on shrink, 2–5 % by volume'
  | 'published: college course page on resin, 3–4 mm absolute';

export interface ClassValue {
  readonly typical: number;
  readonly range: readonly [number, number];
  readonly source: Provenance;
}

/** The values of a formula that a class can stand in for, in the order a label gives them. */
export const CLASS_FIELDS = {
  densityAGPerMl: { words: 'density of part A (resin)', unit: 'g/mL' },
  densityBGPerMl: { words: 'density of part B (hardener)', unit: 'g/mL' },
  maxDepthMm: { words: 'greatest depth of one pour', unit: 'mm' },
  minDepthMm: { words: 'least depth of one pour', unit: 'mm' },
  maxBatchG: { words: 'most in one cup', unit: 'g' },
  atC: { words: 'temperature the times hold at', unit: '°C' },
  potLifeMin: { words: 'pot life', unit: 'min' },
  potLifeMassG: { words: 'cup the pot life was measured in', unit: 'g' },
  bondOpensH: { words: 'can be poured on after', unit: 'h' },
  bondClosesH: { words: 'no longer bonds after', unit: 'h' },
  scuffableH: { words: 'can be scuffed after', unit: 'h' },
  paintableH: { words: 'can be painted after', unit: 'h' },
  demoldH: { words: 'out of the mold after', unit: 'h' },
  fullCureH: { words: 'fully cured after', unit: 'h' },
  viscosityMPaS: { words: 'viscosity, mixed', unit: 'mPa·s' },
  refractiveIndex: { words: 'refractive index', unit: '' },
  shrinkageFraction: { words: 'shrinkage by volume', unit: '' },
} as const;

export type ClassField = keyof typeof CLASS_FIELDS;

export interface ResinClass {
  readonly family: Family;
  readonly name: string;
  /** Part A : part B by volume; none for a one-part resin. */
  readonly ratioByVolume?: readonly [number, number];
  readonly values: Readonly<Record<ClassField, ClassValue>>;
}

const COMMON: Provenance = 'common practice, no source';
const MEMORY: Provenance = 'from memory, not checked';
const OPTICS: Provenance = 'published: conservation epoxies measured 1.515–1.565 (J. Am. Inst. Conserv. 28(2) 1989, 32(3) 1993)';
const SHRINK: Provenance = 'published: casting-epoxy support page on shrink, 2–5 % by volume';
const UV_DEPTH: Provenance = 'published: college course page on resin, 3–4 mm absolute';

const value = (typical: number, low: number, high: number, source: Provenance): ClassValue => ({ typical, range: [low, high], source });

export const RESIN_CLASSES: Readonly<Record<Family, ResinClass>> = {
  general: {
    family: 'general',
    name: 'General casting (typical)',
    ratioByVolume: [1, 1],
    values: {
      densityAGPerMl: value(1.16, 1.15, 1.17, MEMORY),
      densityBGPerMl: value(1.0, 0.97, 1.02, MEMORY),
      maxDepthMm: value(10, 6, 15, COMMON),
      minDepthMm: value(3, 3, 3.2, COMMON),
      maxBatchG: value(400, 300, 500, MEMORY),
      atC: value(23, 21, 27, COMMON),
      potLifeMin: value(40, 30, 50, COMMON),
      potLifeMassG: value(100, 100, 100, COMMON),
      bondOpensH: value(5, 4, 6, COMMON),
      bondClosesH: value(15, 12, 18, COMMON),
      scuffableH: value(21, 18, 24, MEMORY),
      paintableH: value(22, 20, 24, COMMON),
      demoldH: value(36, 24, 48, COMMON),
      fullCureH: value(120, 72, 168, COMMON),
      viscosityMPaS: value(1000, 600, 1500, MEMORY),
      refractiveIndex: value(1.545, 1.53, 1.56, OPTICS),
      shrinkageFraction: value(0.03, 0.02, 0.04, SHRINK),
    },
  },
  'low-viscosity': {
    family: 'low-viscosity',
    name: 'Low-viscosity casting (typical)',
    ratioByVolume: [2, 1],
    values: {
      densityAGPerMl: value(1.14, 1.12, 1.16, MEMORY),
      densityBGPerMl: value(0.97, 0.94, 1.0, MEMORY),
      maxDepthMm: value(25, 20, 30, COMMON),
      minDepthMm: value(5, 5, 5, COMMON),
      maxBatchG: value(1500, 1000, 2000, MEMORY),
      atC: value(23, 20, 25, COMMON),
      potLifeMin: value(120, 60, 180, COMMON),
      potLifeMassG: value(100, 100, 100, COMMON),
      bondOpensH: value(11, 8, 14, COMMON),
      bondClosesH: value(25, 20, 30, COMMON),
      scuffableH: value(39, 30, 48, MEMORY),
      paintableH: value(39, 30, 48, COMMON),
      demoldH: value(54, 36, 72, COMMON),
      fullCureH: value(180, 120, 240, COMMON),
      viscosityMPaS: value(400, 200, 600, MEMORY),
      refractiveIndex: value(1.53, 1.51, 1.55, OPTICS),
      shrinkageFraction: value(0.0225, 0.015, 0.03, SHRINK),
    },
  },
  coating: {
    family: 'coating',
    name: 'Coating (typical)',
    ratioByVolume: [1, 1],
    values: {
      densityAGPerMl: value(1.165, 1.15, 1.18, MEMORY),
      densityBGPerMl: value(1.015, 0.98, 1.05, MEMORY),
      maxDepthMm: value(4.5, 3, 6, COMMON),
      minDepthMm: value(2, 1.5, 3, COMMON),
      maxBatchG: value(300, 200, 400, MEMORY),
      atC: value(23, 21, 27, COMMON),
      potLifeMin: value(30, 20, 40, COMMON),
      potLifeMassG: value(100, 100, 100, COMMON),
      bondOpensH: value(4, 3, 5, COMMON),
      bondClosesH: value(12, 8, 16, COMMON),
      scuffableH: value(21, 18, 24, MEMORY),
      paintableH: value(21, 14, 24, COMMON),
      demoldH: value(24, 24, 24, COMMON),
      fullCureH: value(120, 72, 168, COMMON),
      viscosityMPaS: value(2750, 1500, 4000, MEMORY),
      refractiveIndex: value(1.555, 1.54, 1.57, OPTICS),
      shrinkageFraction: value(0.03, 0.02, 0.04, SHRINK),
    },
  },
  'deep-pour': {
    family: 'deep-pour',
    name: 'Deep-pour (typical)',
    ratioByVolume: [2, 1],
    values: {
      densityAGPerMl: value(1.125, 1.1, 1.15, MEMORY),
      densityBGPerMl: value(0.965, 0.93, 1.0, MEMORY),
      maxDepthMm: value(60, 50, 75, COMMON),
      minDepthMm: value(13, 12, 15, COMMON),
      maxBatchG: value(10000, 5000, 15000, MEMORY),
      atC: value(23, 18, 24, COMMON),
      potLifeMin: value(390, 180, 600, COMMON),
      potLifeMassG: value(350, 200, 500, COMMON),
      bondOpensH: value(24, 18, 30, COMMON),
      bondClosesH: value(54, 36, 72, COMMON),
      scuffableH: value(78, 60, 96, MEMORY),
      paintableH: value(78, 48, 96, COMMON),
      demoldH: value(120, 72, 168, COMMON),
      fullCureH: value(336, 168, 504, COMMON),
      viscosityMPaS: value(325, 150, 500, MEMORY),
      refractiveIndex: value(1.52, 1.5, 1.54, OPTICS),
      shrinkageFraction: value(0.02, 0.01, 0.03, SHRINK),
    },
  },
  uv: {
    family: 'uv',
    name: 'Light-cured accents (typical)',
    values: {
      densityAGPerMl: value(1.1, 1.08, 1.12, MEMORY),
      densityBGPerMl: value(1.1, 1.08, 1.12, MEMORY),
      maxDepthMm: value(1.5, 1, 2, UV_DEPTH),
      minDepthMm: value(0.2, 0.2, 0.2, COMMON),
      maxBatchG: value(20, 20, 20, MEMORY),
      atC: value(23, 15, 30, COMMON),
      // Liquid until it is lit; eight hours of shaded bench light stand for that.
      potLifeMin: value(480, 240, 1440, MEMORY),
      potLifeMassG: value(20, 20, 20, MEMORY),
      bondOpensH: value(0.1, 0.05, 0.2, COMMON),
      bondClosesH: value(2, 1, 4, MEMORY),
      scuffableH: value(0.25, 0.1, 0.5, MEMORY),
      paintableH: value(0.25, 0.1, 0.5, COMMON),
      demoldH: value(0.25, 0.1, 0.5, COMMON),
      fullCureH: value(24, 1, 48, COMMON),
      viscosityMPaS: value(900, 300, 1500, MEMORY),
      refractiveIndex: value(1.5, 1.48, 1.52, MEMORY),
      shrinkageFraction: value(0.065, 0.05, 0.08, MEMORY),
    },
  },
};

/** The classes that are formulas of their own under their family name. The accent class has to be entered. */
export const BUILT_IN: readonly Family[] = ['general', 'low-viscosity', 'coating', 'deep-pour'];
