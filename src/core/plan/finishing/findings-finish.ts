/** Findings about the finish: what sanding would reach, a warm rest that is too warm, coats and their formula, a wanted day. */
import type { Finishing, Plane, Scene } from '../../scene/scene.ts';
import { moldWallOvershoot } from '../../solid/mold.ts';
import { grams, listed, mm, plain, span } from '../../units/format.ts';
import { formatLocalTime } from '../../units/time.ts';
import { dayAndTime } from '../../units/when.ts';
import { nameOf, type Planned, type SolidAt } from '../context.ts';
import { findingsOfFormula } from '../findings-formulas.ts';
import { scaleCoarse } from '../findings-pours.ts';
import type { Finding } from '../plan.ts';
import { coatFormula, type CoatAt } from './coats.ts';
import { rollsAway, worksOf, type FaceAt } from './faces.ts';
import { facesNamed, MARGIN_MM } from './finish-words.ts';
import type { WarmLimit } from './warm-rest.ts';

type Finished = Scene & { readonly finishing: Finishing };

/** What sanding takes, and what it would reach. */
export function marginFindings(planned: Planned, faces: readonly FaceAt[]): Finding[] {
  const { scene } = planned;
  const sanded = faces.filter(({ grits }) => grits.length > 0);
  if (sanded.length === 0) return [];
  const reached = sanded.flatMap((face) => nearFace(planned, face).map((name) => ({ name, face })));
  const takes = `Sanding takes ${MARGIN_MM.least} to ${mm(MARGIN_MM.most)} off ${facesNamed(worksOf(sanded))}`;
  const remedy = 'Fill that much higher where a face is sanded, or set things deeper, or leave the face as it is cast.';
  if (reached.length > 0) {
    const names = sanded.flatMap((face) => {
      const near = reached.filter((each) => each.face === face).map(({ name }) => name);
      return near.length === 0 ? [] : [`${listed(near)} at the ${face.words}`];
    });
    return [{ code: 'sanding-margin', severity: 'caution', subject: 'finish', message: `${takes}. It would reach ${listed(names)}.`, remedy, pours: [] }];
  }
  const across = sanded.filter(({ face }) => face === 'top' || face === 'bottom').length;
  const left = across === 0 ? '' : ` Of ${mm(scene.fillMm)} of height ${plain(scene.fillMm - across * MARGIN_MM.most)} to ${mm(scene.fillMm - across * MARGIN_MM.least)} are left.`;
  return [{ code: 'sanding-margin', severity: 'note', subject: 'finish', message: `${takes}.${left}`, remedy, pours: [] }];
}

/** Names of what lies within the margin of a face. */
function nearFace({ scene, solids }: Planned, { face }: FaceAt): string[] {
  const planes = scene.placements.filter((placement): placement is Plane => placement.kind === 'plane');
  const named = (things: readonly SolidAt[]) => things.map(({ placement }) => placement.name);
  const there = solids.filter(({ solid }) => solid !== null);
  if (face === 'top') {
    return [...planes.filter(({ atMm }) => atMm > scene.fillMm - MARGIN_MM.most).map(({ name }) => name), ...named(there.filter(({ solid }) => solid!.bounds.max[2] > scene.fillMm - MARGIN_MM.most))];
  }
  if (face === 'bottom') return [...planes.filter(({ atMm }) => atMm < MARGIN_MM.most).map(({ name }) => name), ...named(there.filter(({ solid }) => solid!.bounds.min[2] < MARGIN_MM.most))];
  // A bed reaches its walls anyway, and is none the worse for it.
  return named(there.filter(({ placement, solid }) => placement.kind === 'figure' && sidesReached(scene, solid!.bounds).includes(face)));
}

/** Sides that a solid's bounds come near, looked at the middle of each. */
function sidesReached({ mold }: Scene, { min, max }: { readonly min: readonly number[]; readonly max: readonly number[] }): FaceAt['face'][] {
  const [x, y, z] = [0, 1, 2].map((axis) => (min[axis] + max[axis]) / 2);
  const near = (atX: number, atY: number) => moldWallOvershoot(mold, atX, atY, z) > -MARGIN_MM.most;
  const at: [FaceAt['face'], boolean][] = mold.shape === 'round'
    ? [['side', near(min[0], y) || near(max[0], y) || near(x, min[1]) || near(x, max[1])]]
    : [['front', near(0, min[1])], ['right', near(max[0], 0)], ['back', near(0, max[1])], ['left', near(min[0], 0)]];
  return at.filter(([, reached]) => reached).map(([face]) => face);
}

/** `warmC`: what it is planned at; null: not at all. */
export function warmFindings(scene: Finished, limit: WarmLimit, { warmC, inSleep }: { readonly warmC: number | null; readonly inSleep: boolean }): Finding[] {
  const asked = scene.finishing.postCure!;
  const asleep: Finding[] = inSleep ? [{ code: 'cures-in-sleep', severity: 'caution', subject: 'finish', message: 'The warm rest goes on while someone sleeps in the room.', remedy: 'Keep its box in another room: warm resin smells, and no heater is left alone beside a bed.', pours: [] }] : [];
  if (warmC === asked.temperatureC) return asleep;
  const then = warmC === null ? 'It rests in the room instead.' : `It is planned at ${degrees(warmC)}.`;
  const remedy = limit.by === 'unsaid' ? 'If the label of your resin allows more, give that as the most its label allows.' : 'Leave it so, or let it rest in the room, longer.';
  return [...asleep, { code: 'warm-rest-lowered', severity: 'caution', subject: 'finish', message: `A warm rest at ${degrees(asked.temperatureC)} can’t be: ${limitWords(scene, limit, asked.temperatureC)}. ${then}`, remedy, pours: [] }];
}

function limitWords(scene: Finished, { by, limitC }: WarmLimit, askedC: number): string {
  if (askedC <= limitC) return 'that is no warmer than a room';
  if (typeof by === 'object') return limitC === -Infinity ? `${nameOf(scene, by.placement)} bears no warm rest` : `${nameOf(scene, by.placement)} stands ${degrees(limitC)}`;
  return { label: `the resin’s label allows ${degrees(limitC)}`, unsaid: `no label is known that allows more than ${degrees(limitC)}`, mold: `its mold softens near ${degrees(limitC)}` }[by];
}

const degrees = (celsius: number): string => `${plain(celsius)}\u00a0°C`;

export function faceFindings({ mold, finishing }: Finished): Finding[] {
  const worked = (['sides', 'bottom'] as const).filter((face) => finishing[face] !== 'as-cast' && finishing[face] !== 'hidden');
  if (mold.keep && worked.length > 0) {
    return [{ code: 'face-in-mold', severity: 'note', subject: 'finish', message: `The piece stays in its mold: its ${listed(worked)} can’t be finished.`, remedy: 'Nothing is planned for them.', pours: [] }];
  }
  if (!rollsAway(mold, finishing)) return [];
  return [{ code: 'round-side', severity: 'caution', subject: 'finish', message: 'A flood coat runs off a round side: no part of it lies level.', remedy: 'It is planned to be polished instead.', pours: [] }];
}

/** Of the coats as of any pour: their formula’s label, thickness, scale, cups, hours of sleep. */
export function coatFindings(planned: Planned & { readonly scene: Finished }, made: readonly CoatAt[]): Finding[] {
  if (made.length === 0) return [];
  const { scene, layers, heat } = planned;
  const formula = coatFormula(scene);
  const { mm: thickMm } = scene.finishing.coat;
  const poured = layers.some(({ formula: id }) => id === formula.id);
  const findings: Finding[] = poured ? [] : findingsOfFormula(formula, []);
  if (thickMm < formula.minDepthMm) {
    findings.push({ code: 'coat-too-thin', severity: 'caution', subject: 'finish', message: `A flood coat of ${mm(thickMm)} is thinner than the ${mm(formula.minDepthMm)} that ${formula.name} needs to level.`, remedy: 'Make it thicker, or polish that face.', pours: [] });
  }
  const coats = made.map(({ coat }) => coat);
  // The smallest cup is the hardest to weigh.
  const [smallest] = [...coats].sort((a, b) => a.batches[0].mixG - b.batches[0].mixG);
  const coarse = scaleCoarse(smallest.batches[0], scene.bench.scaleG, 'a flood coat');
  if (coarse) findings.push({ ...coarse, subject: 'finish', pours: [] });
  const hot = heat ? coats.find(({ batches: [batch] }) => batch.heat?.hot) : undefined;
  if (hot) findings.push({ code: 'cup-hot', severity: 'halt', subject: 'finish', message: `A cup of ${grams(hot.batches[0].mixG)} for the flood coat gets too hot while it is poured.`, remedy: 'Set less as the most in one cup of that formula, or cool the room and the bottles.', pours: [] });
  if (made.some(({ inSleep }) => inSleep)) {
    findings.push({ code: 'cures-in-sleep', severity: 'caution', subject: 'finish', message: 'A flood coat goes from liquid to tacky while someone sleeps in the room.', remedy: 'Coat it in another room, or choose a quicker formula.', pours: [] });
  }
  return findings;
}

/** Why a coat must not be poured; null where it may. */
export function coatHalt(planned: Planned & { readonly scene: Finished }, findings: readonly Finding[]): string | null {
  const { formula } = planned.scene.finishing.coat;
  const own = findings.filter(({ severity }) => severity === 'halt');
  // What its label contradicts in a pour, it contradicts here.
  const also = planned.layers.some(({ formula: id }) => id === formula) ? findingsOfFormula(coatFormula(planned.scene), []).filter(({ severity }) => severity === 'halt') : [];
  const halts = [...own, ...also];
  return halts.length === 0 ? null : `DO NOT POUR. ${halts.map(({ message }) => message).join(' ')}`;
}

/** A wanted day is that of the finished piece. */
export function wantedFindings({ scene }: Planned, readyMin: number): Finding[] {
  const { readyByMin } = scene.bench;
  if (readyByMin === undefined) return [];
  const by = dayAndTime(formatLocalTime(readyByMin));
  const over = readyMin - readyByMin;
  if (over > 0) return [{ code: 'ready-by', severity: 'caution', subject: 'bench', message: `It is finished ${span(over)} after ${by}, when you want it.`, remedy: 'Start earlier, lengthen the bench hours, or finish fewer faces.' }];
  return [{ code: 'ready-by', severity: 'note', subject: 'bench', message: `It is finished ${over === 0 ? 'just then' : `${span(-over)} before`} ${by}, when you want it.`, remedy: 'Leave a few days: a room that is colder than planned makes everything later.' }];
}
