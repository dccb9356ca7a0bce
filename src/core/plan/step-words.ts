/** What each step says, in bench words. Trade facts: common practice, no source, unless said. */
import { depthAt } from '../scene/depth.ts';
import type { Mold, Plane, Scene } from '../scene/scene.ts';
import { counted, dyeGrams, grams, listed, ml, mm, plain, span } from '../units/format.ts';
import { dayAndTime, weekdayAndTime } from '../units/when.ts';
import { blushOn } from './air/air.ts';
import { outOfBox } from './box/box-words.ts';
import { nameOf, type Planned, type PlannedPour, type SolidAt } from './context.ts';
import { warmest } from './heat-words.ts';
import type { SharedCups } from './plan.ts';
import { bondsTo } from './findings-pours.ts';
import { cups } from './reasons.ts';
import { workShownMin } from './runs/work-shown.ts';
import { planesOn } from './slices.ts';

/** A mold leaning more than this wedges every layer, degrees. */
const LEVEL_DEG = 0.1;

export const GOES_ON = 'Goes on.';

export function testCup({ scene, layers }: Planned): string {
  const names = [...new Set(layers.map((layer) => scene.formulas.get(layer.formula)!.name))];
  const what = names.length > 1 ? `each of ${listed(names)}, each in its own cup,` : names[0];
  return `Test cup: mix 30 to 100 g of ${what} by weight, in this room, and note when it turns tacky and when it sands to powder. Try your paint and tint on it. Go on only if it sets hard all through.`;
}

export function mold(mold: Mold): string {
  const seams = 'Try its seams: look through them dry against a light, then fill it with water for an hour, empty it and dry it fully';
  const care: Record<Mold['material'], string> = {
    silicone: 'Silicone needs no release; support tall walls so that they don’t bulge. No flame near it',
    hdpe: 'Seal the corners; this plastic needs no release and softens near 80 °C',
    acrylic: 'No alcohol on acrylic: it cracks',
    glass: 'Clean it without leaving film or fingerprints',
    wood: 'Seal the wood with thin coats while the room is cooling, until no bubble comes, and let them cure',
    foam: 'Line the foam with tape or film; it holds heat and softens near 70 °C',
  };
  const lined = bondsTo(mold) ? 'Line its inside with tape or film, or release it: resin bonds to it. ' : '';
  const stays = mold.keep ? 'The piece stays in it: scuff or prime the inside faces' : `${lined}Set it where nobody will knock it, on a tray`;
  return `Prepare the mold. ${care[mold.material]}. ${seams}. ${stays}.`;
}

export function figures(solids: readonly SolidAt[]): string {
  const porous = solids.filter(({ placement }) => placement.porous && !placement.sealed).map(({ placement }) => placement.name);
  const seal = porous.length > 0 ? ` Seal ${listed(porous)} with two thin coats and let them dry.` : ' Seal whatever is porous with two thin coats.';
  return `Dry what goes in until two weighings a day apart agree. Degrease it; no wax, oil or silicone polish.${seal} Pre-wet each piece: brush a film of mixed resin on it right before it is set down, into every hollow.`;
}

export function level({ mold: { shape, ...mold } }: Scene): string {
  const across = shape === 'box' ? (mold as { lengthMm: number }).lengthMm : (mold as { diameterMm: number }).diameterMm;
  const off = across * Math.tan((LEVEL_DEG * Math.PI) / 180);
  return `Level the mold both ways, to ${mm(off, 1)} over its ${plain(across)} mm. Cover box, tray, timer and a warm, still room ready.`;
}

export function place({ scene }: Planned, solids: readonly SolidAt[]): string {
  const how = { rests: 'on the surface', stands: 'loose', fixed: 'fastened', rod: 'on its rod', thread: 'on its thread' } as const;
  const each = solids.map(({ placement }) => `${placement.name} ${how[placement.hold]} at ${plain(placement.baseMm)} up, ${plain(depthAt(scene, placement.baseMm))} deep`);
  return `Set in place, pre-wetted: ${listed(each)}. Let no air hide under ${solids.length > 1 ? 'them' : 'it'}.`;
}

export function pour({ scene }: Planned, pour: PlannedPour): string {
  const { batches, formulaUsed } = pour;
  const tint = batches[0].tintG > 0 ? ` Stir in ${dyeGrams(batches[0].tintG, scene.bench.dyeScaleG)} of dye per cup after part B.` : '';
  const locks = pour.locks.length > 0 ? ` It locks ${listed(pour.locks.map((id) => nameOf(scene, id)))}: not a millimeter deeper.` : '';
  const warm = pour.heat ? ` Heat: ${warmest(pour.heat)}.` : '';
  const many = batches.length > 1 ? ' Pour the cups one right after the other.' : '';
  const shared = pour.shared ? sharedWords(scene.name, pour, pour.shared) : scene.run.copies > 1 && batches[0].workMin !== null ? ` For ${plain(scene.run.copies, 0)} molds: each cup fills ${plain(batches[0].molds)}, in ${plain(workShownMin(batches[0]), 0)} min.` : '';
  const all = pour.shared ?? pour;
  return `Pour ${pour.index}: mix ${cups(batches.length)} of ${formulaUsed.name}, ${ml(all.mixMl)} in all (${grams(all.mixG)}), by the mix card.${tint} Pour at the low side to ${mm(pour.fillMarkFromRimMm)} from the rim.${many}${shared}${locks} Each cup is usable for ${plain(Math.floor(batches[0].usableMin), 0)} min. Pour a witness coin from every mix. Cover it from the first minute and watch it for ${span(scene.bench.watchH * 60)}.${warm}`;
}

function sharedWords(name: string, { batches }: PlannedPour, { molds, with: others }: SharedCups): string {
  const each = batches.length > 1 ? 'each cup' : 'the cup';
  return ` ${plain(molds, 0)} molds, of ${listed([name, ...others])}, are poured from ${batches.length > 1 ? 'these cups' : 'this cup'}: mix ${batches.length > 1 ? 'them' : 'it'} once, not once for each piece. Every mold to its own mark, ${each} within ${plain(workShownMin(batches[0]), 0)} min.`;
}

export function wait({ scene }: Planned, pour: PlannedPour, next: 'pour' | 'scuff' | 'demold'): string {
  if (next === 'pour') {
    return `Leave it covered until it is tacky${cool(pour.heat?.movedMin.opens)}: a gloved knuckle leaves a mark and nothing comes off. Tacky ${weekdayAndTime(pour.opens)} to ${weekdayAndTime(pour.closes)}.`;
  }
  if (next === 'scuff') {
    return `Leave it covered until the witness coin sands to powder${cool(pour.heat?.movedMin.scuffable)}, not before ${dayAndTime(pour.scuffable)}.`;
  }
  return scene.mold.keep ? `Leave it covered to cure until ${dayAndTime(pour.demold)}.` : `Leave it in the mold until ${dayAndTime(pour.demold)} at the earliest.`;
}

/** Said where warmth, not the label, makes it wait. */
function cool(movedMin: number | undefined): string {
  return movedMin === undefined || movedMin === 0 ? '' : ' and its surface is within 5 °C of the room';
}

/** `below`: the pour whose surface it is. */
export function scuff(planned: Planned, below: PlannedPour | null): string {
  const { scene } = planned;
  const { mold } = scene;
  const film = below && blushOn(scene, below);
  const wash = film
    ? `${film.cold ? 'It was cold' : 'The air was damp'} while this set, so a greasy film is likely: before you scuff, wash it with water, a drop of mild detergent and a clean pad until nothing feels greasy, rinse, and dry it with fresh paper. Then scuff it`
    : 'Wash the surface with water and a drop of detergent, dry it with fresh paper, scuff it';
  const box = below?.box ? outOfBox(planned) : '';
  const wipe = mold.material === 'acrylic' ? 'wipe with clean water and dry, no alcohol near the acrylic' : 'wipe with isopropanol and let it flash off for 10 to 15 min';
  return `${box}Check that the witness coin sands to powder. ${wash} all over, right into the corners, at 320 to 600 grit, wet; vacuum, ${wipe}. No bare fingers on it.`;
}

export function paint({ scene }: Planned, planes: readonly Plane[]): string {
  const each = planes.map((plane) => `${plane.name} at ${plain(plane.atMm)} up, ${plain(depthAt(scene, plane.atMm))} deep`);
  const mirror = scene.cast === 'face-down' ? ' Face down: mirror it left to right, and paint first what will be nearest the viewer.' : '';
  return `Paint ${listed(each)}. Thin waterborne acrylic; no alcohol inks or markers.${mirror}`;
}

export function dry(planes: readonly Plane[]): string {
  return `Let ${listed(planes.map((plane) => plane.name))} dry, covered from dust. Cool to the lip means it is still wet.`;
}

export function demold({ scene, pours }: Planned): string {
  const last = pours[pours.length - 1];
  const how = bondsTo(scene.mold) ? 'its walls don’t flex, so take it apart or ease the piece off the lining; no force and no metal levers' : 'warm or chill it a little, flex the corners, no metal levers';
  return `Out of the mold: ${how}. Fully cured after ${span(last.formulaUsed.fullCureH * 60)} at ${plain(last.formulaUsed.atC)} °C; until then lay it flat and don’t stack anything on it. ${scene.mold.material === 'silicone' ? 'Keep solvents off the silicone.' : ''}`.trim();
}

export function finish({ scene, pours }: Planned): string {
  const face = scene.cast === 'face-up' ? 'the show face and any pour-lined side' : 'the back and any pour-lined side; the show face has the mold’s own gloss';
  const rest = counted(Math.max(...pours.map((pour) => Math.ceil(pour.formulaUsed.fullCureH / 24))), 'day');
  const edges = scene.mold.keep ? 'Trim the raised rim of resin along the wall' : 'Trim the sharp rim, bevel the edges 0.5 to 1 mm';
  const painted = planesOn(scene, pours[pours.length - 1]);
  const top = painted.length > 0 ? ` Never sand the top, where ${listed(painted.map(({ name }) => name))} is painted: only seal it, or flood a thin coat.` : '';
  return `${edges}. Wait ${rest} for full hardness before polishing. A face that is sanded loses 2 to 3 mm: the drawing must have that margin on ${face}. Sand wet, each grit crosswise, or sand to 400 and flood a thin coat.${top} Photograph it, write its care note.`;
}
