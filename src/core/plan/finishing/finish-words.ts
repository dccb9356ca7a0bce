/** What each step of finishing says, in bench words. Trade facts: common practice, no source, unless said. */
import type { Finishing, Mold, Scene } from '../../scene/scene.ts';
import { grams, listed, ml, mm, plain } from '../../units/format.ts';
import { dayAndTime, weekdayAndTime } from '../../units/when.ts';
import type { FloodCoat } from '../plan.ts';
import { cups } from '../reasons.ts';
import type { FaceAt, FaceWork } from './faces.ts';
import type { WarmStage } from './warm-rest.ts';

const NBSP = '\u00a0';
/** Nobody measures a smaller one, mm; in inches it would be none. */
const LEAST_BEVEL_MM = 0.8;
/** What sanding a face flat takes off, mm (published by model makers; from memory). */
export const MARGIN_MM = { least: 2, most: 3 } as const;

/** Said with the first face that is sanded; the others say it short. */
const SAND_CARE = 'Wet, on a flat plate, each grit crosswise until the scratches of the last are gone; wash between grits. Never dry: the dust is bad for lungs and skin. P100 or FFP3 mask, gloves, no food near.';
const SAND_CARE_AGAIN = 'Wet, mask and gloves on.';

export function begins(ready: string): string {
  return `From here on it is finished, step by step, until ${dayAndTime(ready)}.`;
}

export function warmSetUp(stages: readonly WarmStage[], { keep }: Mold): string {
  const way = stages.map(({ fromC, toC, fromMin, toMin }) => (fromC === toC ? `${plain(toC)}${NBSP}°C for ${plain((toMin - fromMin) / 60)}${NBSP}h` : `to ${plain(toC)}${NBSP}°C in ${plain((toMin - fromMin) / 60)}${NBSP}h`));
  return `Warm rest${keep ? '' : ', in its mold'}: ${listed(way)}. Never faster than 10${NBSP}°C an hour. A box with a thermostat and a cutout of its own, a thermometer beside the piece, fresh air; no open heater, nobody sleeping there.`;
}

export const WARM_WAIT = 'Leave it in the box through its stages until it is as cool as the room. Look in while you are there: if the thermometer is over, switch off and let it cool.';

export function trim({ keep, material }: Mold, { warmed }: { readonly warmed: boolean }): string {
  if (keep) return 'Trim the raised rim of resin along the wall.';
  return `Trim the sharp rim with a scraper${warmed ? '' : ' while it is still a little soft'}. Gloves: it is not fully cured. ${material === 'silicone' ? 'Keep solvents off the silicone. ' : ''}Lay the piece flat.`.trim();
}

export const REST = 'Let it rest until it is fully hard. Don’t sand before: dust of half-cured resin is the worst for skin. Lay it flat, stack nothing on it.';

export function edges({ edgeMm }: Pick<Finishing, 'edgeMm'>): string {
  const how = edgeMm < LEAST_BEVEL_MM ? 'Break the edges, just so that they aren’t sharp' : `Bevel the edges ${mm(edgeMm)}`;
  return `${how}, before the faces, wet, at 180 and 320 grit: a sharp edge chips.`;
}

export function sand({ words, finish, grits }: FaceWork, { first }: { readonly first: boolean }): string {
  const good = finish === 'polished' ? ' Start at 400 to 600 where it is already smooth.' : '';
  const then = finish === 'flood-coat' ? ' Stop at 400: the coat needs the tooth.' : finish === 'sanded' ? ' Stop there: an even satin.' : '';
  return `Sand the ${words} with ${grits.map(String).join(', ')}.${good}${then} ${MARGIN_MM.least} to ${mm(MARGIN_MM.most)} come off. ${first ? SAND_CARE : SAND_CARE_AGAIN}`;
}

/** No flame near paint, nor near a mold that burns or softens (trade: common practice, no source). */
export function popBubbles({ mold: { keep, material } }: Pick<Scene, 'mold'>, { painted }: { readonly painted: boolean }): string {
  return painted || (keep && material !== 'glass') ? 'prick the bubbles with a needle, no flame here' : 'put the alcohol away, then pop the bubbles with a quick flame';
}

/** How a face is cleaned for its coat. */
export function cleanForCoat({ mold: { keep, material } }: Pick<Scene, 'mold'>, { painted }: { readonly painted: boolean }): string {
  if (painted) return 'The painting must be dry and free of dust; don’t wipe it.';
  const wipe = keep && material === 'acrylic' ? 'wipe it with clean water and dry it, no alcohol near the acrylic' : 'wipe it with isopropanol and let it flash off for 10 to 15 min';
  return `Wash it, ${wipe}.`;
}

export function coat(made: FloodCoat, { words, grits }: FaceAt, { scene, halt }: { readonly scene: Scene; readonly halt: string | null }): string {
  if (halt !== null) return halt;
  const [batch] = made.batches;
  const stops = batch.scaleStopsG.map((stop) => grams(stop, scene.bench.scaleG));
  const name = scene.formulas.get(made.formula)!.name;
  const painted = { painted: grits.length === 0 };
  const copies = scene.run.copies > 1 ? ` For ${plain(scene.run.copies, 0)} pieces, one cup right after the other.` : '';
  return `Flood coat on the ${words}, ${mm(made.thicknessMm)}: lay it level, that face up, a dam of tape around it. ${cleanForCoat(scene, painted)} Mix ${cups(made.batches.length)} of ${name}, ${ml(made.mixMl)} in all (${grams(made.mixG)}): scale to ${stops.join(', then ')}, each cup.${copies} Spread it, ${popBubbles(scene, painted)}, cover it. Usable for ${plain(Math.floor(batch.usableMin), 0)}${NBSP}min.`;
}

/** `last`: nothing is coated after it, and it stays until it is hard; else until the piece can be turned. */
export function harden(made: FloodCoat, { words }: FaceAt, { last }: { readonly last: boolean }): string {
  const again = made.opens < made.closes ? ` If it drew back somewhere, a second coat goes on tacky from ${weekdayAndTime(made.opens)} to ${weekdayAndTime(made.closes)}; later only once it is scuffed and wiped, from ${weekdayAndTime(made.scuffable)}.` : '';
  return last ? `Let the ${words} harden fully, covered, until ${dayAndTime(made.hard)}.${again}` : `Leave the ${words} lying until ${dayAndTime(made.firm)}, covered; then it can be turned.${again}`;
}

export function polish({ words }: FaceWork): string {
  return `Polish the ${words}: compound, wash, then polish, with a soft pad. Keep it cool and moving: heat softens the surface.`;
}

const BASES: Readonly<Record<Finishing['base'], string>> = {
  none: '',
  felt: 'Felt under it, cut 1 mm short all around.',
  wood: 'Set it on its wooden base; fine felt or cork between, so that the wood can move.',
  light: 'Set it on its lit base: leave the vents free, a cool lamp, its cable out of the way.',
};

export function base({ base: kind }: Pick<Finishing, 'base'>): string {
  return BASES[kind];
}

export const GLUE = 'Let the glue of the base set.';
export const DONE = 'Finished. Photograph it, write its care note.';

/** `the top and the bottom`. */
export function facesNamed(faces: readonly Pick<FaceAt, 'words'>[]): string {
  return listed(faces.map(({ words }) => `the ${words}`));
}
