/** Findings about layers, pours, cups, the rim and joints. */
import { capital, grams, listed, mm, percent, plain, span } from '../units/format.ts';
import { weekdayAndTime } from '../units/when.ts';
import { moldMaterialWords } from '../resin/material-words.ts';
import type { Formula, Mold } from '../scene/scene.ts';
import { latestOnTacky } from './best/latest.ts';
import type { Planned, PlannedPour } from './context.ts';
import { poursNamed } from './pours-named.ts';
import type { LayerAt } from './layers.ts';
import { scaleError } from './mix.ts';
import type { Batch, Finding } from './plan.ts';
import { paceOf } from './schedule.ts';
import { LEVELS_SHARE } from './thinnest.ts';

/** Heights and shares of decimals carry noise far below this. */
const ROUNDING = 1e-9;
/** Free height a mold should keep (design). */
const FREEBOARD_MM = 3;
const SCALE_CAUTION = 0.02;
const SCALE_HALT = 0.05;

/** `calendar`: findings about the person’s week, told among these. */
export function pourFindings(planned: Planned, calendar: readonly Finding[]): Finding[] {
  return [...thinLayers(planned), ...deepPours(planned), ...rim(planned), ...scales(planned), ...routes(planned), ...drying(planned), ...calendar, ...mold(planned), ...start(planned)];
}

/** A layer's pours that are too thin, those that would be poured all the same apart from those that would not level at all. */
function thinLayers({ scene, layers, pours }: Planned): Finding[] {
  return layers.flatMap((layer): Finding[] => {
    const formula = scene.formulas.get(layer.formula)!;
    const thin = pours.filter((pour) => pour.layer === layer.index && pour.depthMm < formula.minDepthMm - ROUNDING);
    const isHalt = (pour: PlannedPour) => pour.depthMm < LEVELS_SHARE * formula.minDepthMm - ROUNDING;
    return [thin.filter(isHalt), thin.filter((pour) => !isHalt(pour))].flatMap((group, i): Finding[] => {
      if (group.length === 0) return [];
      const only = poursNamed(group).replace(/^p/, 'P');
      const name = layer.index === layers.length && group.length === 1 && group[0].index === pours.length ? 'The top pour' : only;
      return [
        {
          code: 'layer-too-thin',
          severity: i === 0 ? 'halt' : 'caution',
          subject: `layer ${layer.index}`,
          message: `${name} would be ${mm(Math.min(...group.map((pour) => pour.depthMm)), 2)}. ${formula.name} needs ${mm(formula.minDepthMm)} to level.`,
          remedy: group.some((pour) => pour.limitMm < formula.maxDepthMm - ROUNDING) ? hotRemedy(layer, formula) : thinRemedy(layer, layers[layer.index - 2], formula, scene.plan.pinsMm),
          pours: group.map((pour) => pour.index),
        },
      ];
    });
  });
}

/** A layer that is deep enough, split thin because deeper pours would be too warm. */
function hotRemedy(layer: LayerAt, formula: Formula): string {
  return `Deeper pours would be too warm here, and thinner than ${mm(formula.minDepthMm)} it does not level: cool the room, or choose a slower resin for the layer up to ${plain(layer.toMm)}.`;
}

/** Where the stops above and below could go; a layer that is deep enough is thin only in its split, or by the lines asked for in it. */
function thinRemedy(layer: LayerAt, below: LayerAt | undefined, formula: Formula, pinsMm: readonly number[]): string {
  const depth = layer.toMm - layer.fromMm;
  const pins = pinsMm.filter((pin) => pin > layer.fromMm + ROUNDING && pin < layer.toMm - ROUNDING);
  if (pins.length > 0 && depth >= formula.minDepthMm - ROUNDING) {
    return `${pins.length === 1 ? `Move the line you asked for at ${plain(pins[0], 2)}, or let it go` : `Move the lines you asked for at ${listed(pins.map((pin) => plain(pin, 2)))}, or let one go`}: ${mm(formula.minDepthMm)} at least have to lie between lines.`;
  }
  if (depth >= formula.minDepthMm - ROUNDING) {
    const wanted = formula.minDepthMm <= formula.maxDepthMm ? 'make the layer deeper or shallower, or ' : '';
    return `Its ${mm(depth, 2)} can’t be split into pours between ${plain(formula.minDepthMm)} and ${mm(formula.maxDepthMm)}: ${wanted}choose another formula for it.`;
  }
  const raised = `raise its top from ${plain(layer.toMm, 3)} to ${plain(layer.fromMm + formula.minDepthMm, 3)}`;
  const lowered = below ? `lower the stop below it from ${plain(layer.fromMm, 3)} to ${plain(layer.toMm - formula.minDepthMm, 3)}, ` : '';
  return capital(`${lowered}${raised}, or choose a formula that pours thinner.`);
}

/** The planner never makes one; this guards every planner to come. */
function deepPours({ pours }: Planned): Finding[] {
  return pours
    .filter((pour) => pour.depthMm > pour.formulaUsed.maxDepthMm * (1 + ROUNDING) + ROUNDING)
    .map((pour) => ({
      code: 'pour-too-deep',
      severity: 'halt',
      subject: `pour ${pour.index}`,
      message: `Pour ${pour.index} is ${mm(pour.depthMm)}. The label of ${pour.formulaUsed.name} allows ${mm(pour.formulaUsed.maxDepthMm)}.`,
      remedy: 'Pour it in more steps.',
      pours: [pour.index],
    }));
}

function rim({ scene, pours }: Planned): Finding[] {
  const findings: Finding[] = [];
  for (const pour of pours) {
    const free = pour.fillMarkFromRimMm;
    if (free < -ROUNDING) {
      findings.push({
        code: 'overfull',
        severity: 'halt',
        subject: `pour ${pour.index}`,
        message: `Pour ${pour.index} would stand ${mm(-free)} above the rim; the mold is ${mm(scene.mold.heightMm)} high.`,
        remedy: `Fill lower, or use a mold at least ${plain(Math.ceil(scene.mold.heightMm - free + FREEBOARD_MM))} mm high.`,
        pours: [pour.index],
      });
    } else if (free < FREEBOARD_MM - ROUNDING) {
      findings.push({
        code: 'freeboard',
        severity: 'caution',
        subject: `pour ${pour.index}`,
        message: `Pour ${pour.index} comes to ${mm(free)} from the rim.`,
        remedy: `Leave ${mm(FREEBOARD_MM)} or more: fill lower or use a higher mold.`,
      });
    }
  }
  return findings;
}

function scales({ scene, pours }: Planned): Finding[] {
  return pours.flatMap((pour): Finding[] => {
    const coarse = scaleCoarse(pour.batches[0], scene.bench.scaleG, `pour ${pour.index}`);
    return coarse ? [{ ...coarse, subject: `pour ${pour.index}`, pours: [pour.index] }] : [];
  });
}

/** Where one division of the scale is too much of a cup’s smaller part; `what` the cup is for. */
export function scaleCoarse(batch: Batch, scaleG: number, what: string): Omit<Finding, 'subject'> | null {
  const error = scaleError(batch, scaleG);
  if (!(error > SCALE_CAUTION + ROUNDING)) return null;
  const onePart = batch.partB.g === 0;
  const smaller = onePart ? batch.partA.g : Math.min(batch.partA.g, batch.partB.g);
  const part = onePart || smaller === batch.partA.g ? 'part A (resin)' : 'part B (hardener)';
  return {
    code: 'scale-coarse',
    severity: error > SCALE_HALT + ROUNDING ? 'halt' : 'caution',
    message: `One step of the scale, ${grams(scaleG, scaleG)}, is ${percent(error)} of the ${grams(smaller)} of ${part} in a cup of ${what}.`,
    remedy: `Use a scale that shows ${plain(scaleNeeded(smaller), 3)} g, or mix more at once.`,
  };
}

/** The coarsest common scale within the caution limit. */
function scaleNeeded(smallerG: number): number {
  return [1, 0.5, 0.1, 0.05, 0.01, 0.001].find((division) => division / smallerG <= SCALE_CAUTION) ?? 0.001;
}

function routes({ scene, schedule, pours }: Planned): Finding[] {
  const pace = paceOf(scene);
  return pours.flatMap((pour): Finding[] => {
    if (!schedule.pours[pour.index - 1].missedWindow) return [];
    const below: PlannedPour = pours[pour.index - 2];
    const { label } = schedule.pours[below.index - 1];
    const closed = closedWindow(below, label.opens < label.closes);
    const open = below.opens < below.closes;
    const asleep = open && pace.nights !== null && latestOnTacky(pace, schedule.pours[below.index - 1]) !== null;
    const unfit = asleep ? 'a pour in those hours would be liquid while someone sleeps in the room' : 'no pour fits there in bench hours';
    const window = open ? `is tacky from ${weekdayAndTime(below.opens)} to ${weekdayAndTime(below.closes)}, and ${unfit}` : closed.words;
    return [
      {
        code: 'route-changed',
        severity: 'note',
        subject: `pour ${pour.index}`,
        message: `Pour ${below.index} ${window}. Pour ${pour.index} waits until it can be scuffed.`,
        remedy: asleep ? 'Cure it in a room where nobody sleeps, to pour onto the tacky surface.' : open ? 'Pour at another hour, or lengthen the bench hours, to pour onto the tacky surface.' : closed.remedy,
      },
    ];
  });
}

/** Why a pour can't be poured on while it is tacky: its own warmth, the room's, or the label as it was typed. */
function closedWindow({ heat, formulaUsed }: PlannedPour, openByLabel: boolean): { readonly words: string; readonly remedy: string } {
  if (openByLabel && heat) {
    const stays = heat.movedMin.closes === 0 ? 'stays too warm to be poured on until it no longer bonds' : 'warms itself and sets too soon to be poured on while it is tacky';
    return { words: stays, remedy: 'Pour it thinner, or cool the room, to pour onto the tacky surface.' };
  }
  if (formulaUsed.bondOpensH < formulaUsed.bondClosesH) return { words: 'sets too soon in this room to be poured on while it is tacky', remedy: 'Cool the room, or be quicker with the pour, to pour onto the tacky surface.' };
  return { words: 'can first be poured on when it no longer bonds, by the times of its label', remedy: 'Read the label again: when can it be poured on, and until when?' };
}

/** What dries sooner stays; an id that can't be written in a change leaves it unoffered. */
function dryingAt({ placements }: Planned['scene'], dryH: number): Pick<Finding, 'whatIf'> {
  const slow = placements.flatMap((placement) => (placement.kind === 'plane' && placement.dryH > dryH ? [placement.id] : []));
  return slow.some((id) => /[;=]/.test(id)) ? {} : { whatIf: slow.map((id) => `dry:${id}=${dryH} h`).join('; ') };
}

function drying({ quickDrying, scene }: Planned): Finding[] {
  if (!quickDrying) return [];
  const saves = quickDrying.savedMin > 0 ? `bring the end ${span(quickDrying.savedMin)} closer` : 'bring the end no closer';
  const { withLonger } = quickDrying;
  const together = withLonger ? ` With hands there ${span(withLonger.extraMin)} longer every evening they would bring it ${span(withLonger.savedMin)} closer.` : '';
  return [
    {
      code: 'drying-days',
      severity: 'note',
      subject: 'planes',
      message: `Planes that dry ${plain(quickDrying.dryH)} h would ${saves}, with these bench hours and ${span(scene.bench.watchH * 60)} of watching after each pour.${together}`,
      remedy: 'Thin washes in moving, dry air can do with that. Cool to the lip means still wet.',
      ...(quickDrying.savedMin > 0 && dryingAt(scene, quickDrying.dryH)),
    },
  ];
}

/** Walls that resin holds on to (common practice, no source). */
const BONDING: readonly string[] = ['acrylic', 'glass', 'wood'];

export function bondsTo({ material }: Mold): boolean {
  return BONDING.includes(material);
}

function mold({ scene }: Planned): Finding[] {
  const holds = bondsTo(scene.mold);
  if (!scene.mold.keep) {
    if (!holds) return [];
    return [
      {
        code: 'bonds-to-mold',
        severity: 'caution',
        subject: 'mold',
        message: `Resin bonds to ${moldMaterialWords(scene.mold.material)}: as it is, the piece will not come out of the mold.`,
        remedy: 'Line the inside with tape or film, or use a release, and try it on a small cup first; or let the piece stay in its mold.',
      },
    ];
  }
  return [
    {
      code: 'stays-in-mold',
      severity: 'note',
      subject: 'mold',
      ...(holds
        ? {
            message: 'The piece stays in the mold. Resin shrinks as it cures, and stiff walls that it bonded to let go in silvery patches.',
            remedy: 'Scuff or prime the inside faces, pour thin, and let it cure slowly.',
          }
        : {
            message: `The piece stays in the mold, and resin does not bond to ${moldMaterialWords(scene.mold.material)}: it only sits in it, and a gap will show.`,
            remedy: 'Use acrylic, glass or sealed wood for a mold that stays, or take the piece out.',
          }),
    },
  ];
}

function start({ startIs, schedule }: Planned): Finding[] {
  if (startIs !== 'assumed' || schedule.pours.length === 0) return [];
  return [
    {
      code: 'start-assumed',
      severity: 'note',
      subject: 'bench.start',
      message: 'No first day is set, so days are counted, the first as if it were Monday 3 January 2000.',
      remedy: 'Set the day and hour you begin.',
    },
  ];
}
