/** How a piece reads, in sentences: for a terminal, for templates. Lengths are in mm; names stand as the person gave them. */
import type { EyePoint, Lamp, Scene } from '../scene/scene.ts';
import { capital, listed, mm, percent, plain } from '../units/format.ts';
import { TYPICAL_SWATCH } from './dye.ts';
import { awayWords, lampWords, sideWords } from './lamp-words.ts';
import { paintWords } from './plane-paints.ts';
import { LOOKS_DEG, type CreatureReading, type LineReading, type PlaneReading, type Reading, type ShadowReading } from './reading.ts';

/** mm. Nearer than this a shadow lies right under what throws it. */
const UNDER_MM = 0.5;
/** One of LOOKS_DEG: what scenes take a look from the side for. */
const USUAL_LOOK_DEG = 45;

export function eyeWords({ eyeMm, eyeXMm, eyeYMm }: EyePoint): string {
  const away = awayWords(eyeXMm, eyeYMm);
  return `an eye ${mm(eyeMm, 0)} from the show face, ${away ? `${away} of its middle` : 'over its middle'}`;
}

/** What to do about a shadow: once, not twice. */
export function shadowWords({ name, through, shiftMm, towardDeg }: Pick<ShadowReading, 'name' | 'through' | 'shiftMm' | 'towardDeg'>): string {
  const where = through ? `to the ${sideWords(towardDeg)} of where it stands` : shiftMm < UNDER_MM ? 'right under it' : `${mm(shiftMm)} to the ${sideWords(towardDeg)}`;
  return `The shadow of ${name} falls here, ${where}.`;
}

/** With every drawn shadow. */
export function onceWords(lamp: Lamp): string {
  const words = capital(lampWords(lamp));
  return `${words}${words.includes(',') ? ',' : ''} casts shadows by itself: paint one only if the piece will stand without that lamp, or two will show.`;
}

/** Of shadows that are not drawn. */
export function unknownWords(names: readonly string[]): string {
  return `${listed(names)}: ${names.length === 1 ? 'its shadow is' : 'their shadows are'} not drawn, as the outline is not known.`;
}

/** What a plane drawn for an eye says of itself. */
export function linedUpWords(name: string, read: EyePoint): string {
  return `${name} is drawn to line up for ${eyeWords(read)}${read.stretch ? ', and built deeper so that it looks as deep as it is' : ''}.`;
}

/** For people; empty where nobody asked for a color, an eye or a lamp. */
export function readingText(scene: Scene, reading: Reading): string {
  const asked = reading.lamp !== null || reading.creatures.some(({ read }) => read !== null) || reading.planes.some(({ paints }) => paints.length > 0);
  if (!asked) return '';
  const beds = scene.placements.filter(({ kind }) => kind === 'bed').map(({ name }) => name);
  const lines = [
    ...reading.planes.flatMap((plane) => planeLines(plane)),
    ...(reading.back && reading.back.shadows.length > 0 ? [`  ${scene.cast === 'face-down' ? 'The top' : 'The floor'}`, ...reading.back.shadows.map((shadow) => `     ${shadowWords(shadow)} To paint it, set a plane there.`)] : []),
    ...(reading.lamp && hasShadows(reading) ? [`  ${onceWords(reading.lamp)}`] : []),
    ...(reading.back && reading.back.shadows.length > 0 && scene.cast === 'face-up' && beds.length > 0 ? [`  On ${listed(beds)} shadows fall shorter than on the floor.`] : []),
    ...(reading.unknownShadows.length > 0 ? [`  ${unknownWords(reading.unknownShadows)}`] : []),
    ...reading.creatures.flatMap((creature) => creatureLines(creature).map((line) => `  ${line}`)),
    ...linesLines(reading.lines).map((line) => `  ${line}`),
    ...noteWords(reading).map((line) => `  ${line}`),
  ];
  return `\n${['How it reads', ...lines].join('\n').replace(/\u00a0/g, ' ')}\n`;
}

const hasShadows = ({ planes, back }: Reading): boolean => planes.some(({ shadows }) => shadows.length > 0) || (back?.shadows.length ?? 0) > 0;

function planeLines({ name, depthMm, seenDepthMm, paints, shadows }: PlaneReading): string[] {
  return [`  ${name}: ${plain(depthMm)} deep, looks ${mm(seenDepthMm)}.`, ...paints.map((paint) => `     ${paintWords(name, paint)}`), ...shadows.map((shadow) => `     ${shadowWords(shadow)}`)];
}

function creatureLines({ name, read, tallMm, builtMm, overMm, scales, edges }: CreatureReading): string[] {
  const said: string[] = [];
  if (read) {
    const sizes = scales.map(({ scale }) => scale);
    said.push(linedUpWords(name, read));
    if (sizes.length > 0) said.push(`Its outlines are ${Math.min(...sizes) > 0.9995 ? 'as large as it is' : `${percent(Math.min(...sizes))} to ${percent(Math.max(...sizes))} of its size`}.`);
  }
  if (read?.stretch && tallMm !== null && builtMm !== null) said.push(`It is ${mm(tallMm)} tall and built ${mm(builtMm)}.${overMm > 0 ? ` ${capital(mm(overMm))} of that is over the resin: lower it, or fill higher.` : ''}`);
  const from = edges.flatMap(({ showsFromDeg }) => (showsFromDeg === null ? [] : [showsFromDeg]));
  const widest = LOOKS_DEG[LOOKS_DEG.length - 1];
  if (edges.length > 0) said.push(Math.min(...from) <= widest ? `${name}: edges between its planes begin to show from ${plain(Math.floor(Math.min(...from)), 0)}° off the straight look.` : `${name}: no edge between its planes shows up to ${widest}° off the straight look.`);
  return said;
}

function linesLines(lines: readonly LineReading[]): string[] {
  const bare = lines.filter(({ on }) => on === 'bare');
  if (lines.length === 0) return [];
  if (bare.length === 0) return ['Every line between pours lies on something that takes the eye from it.'];
  const named = `${bare.length === 1 ? 'The line' : 'Lines'} between pours at ${listed(bare.map(({ heightMm }) => mm(heightMm)))} ${bare.length === 1 ? 'lies' : 'lie'} bare`;
  const seen = bare.flatMap(({ seenMm }) => seenMm.find(({ viewDeg }) => viewDeg === USUAL_LOOK_DEG)?.mm ?? []);
  const throughFace = seen.length === 0 ? `through the face at ${USUAL_LOOK_DEG}° the far wall is not seen so deep` : `through the face at ${USUAL_LOOK_DEG}° ${listed(seen.map((at) => mm(at)))} in from the far edge`;
  return [`${named}: from straight over the face none shows, ${throughFace}, through clear sides ${bare.length === 1 ? 'it does' : 'they do'}.`];
}

function noteWords({ lamp, planes, guessedFillsToMm }: Reading): string[] {
  if (planes.every(({ paints }) => paints.length === 0)) return [];
  const { percent: dye, mm: thick, passes } = TYPICAL_SWATCH;
  return [
    `Colors are as seen straight on, by light that goes in ${lamp ? 'from the lamp' : 'straight'} and comes out again: the water colors it twice. Judge paint wet, as it will look under resin.`,
    ...(planes.some(({ paints }) => paints.some(({ possible }) => !possible)) ? ['Where no paint can, less dye or a plane nearer the face brings it nearer.'] : []),
    ...(guessedFillsToMm.length > 0 ? [`No swatch is known of the dye up to ${listed(guessedFillsToMm.map((toMm) => mm(toMm)))}: taken as ${plain(dye, 2)} % letting ${percent(passes, 0)} through ${mm(thick)}. Pour a chip, and say what it lets through.`] : []),
  ];
}
