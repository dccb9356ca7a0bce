/** Findings about what is set in the mold. */
import { materialWords } from '../resin/material-words.ts';
import { MATERIALS } from '../resin/materials.ts';
import { STOP_TOLERANCE_MM } from '../scene/tolerance.ts';
import { grams, ml, mm, percent, plain, tenthAbove, tenthBelow } from '../units/format.ts';
import { nameOf, poursWithin, type Planned, type SolidAt } from './context.ts';
import type { Finding } from './plan.ts';
import { firstTopAbove } from './split.ts';

const MM3_PER_ML = 1000;

export function solidFindings(planned: Planned): Finding[] {
  return [
    ...planned.solids.flatMap((solid) => [
      ...outside(planned, solid),
      ...tightness(planned, solid),
      ...aboveFill(planned, solid),
      ...floating(planned, solid),
      ...weights(solid),
    ]),
    ...overlaps(planned),
    ...cutPlanes(planned),
    ...buriedPlanes(planned),
  ];
}

function outside(planned: Planned, { placement, solid }: SolidAt): Finding[] {
  if (!solid || !planned.displacement.outside.includes(placement.id)) return [];
  return [
    {
      code: 'outside-mold',
      severity: 'halt',
      subject: placement.id,
      message: `${placement.name} cuts the mold’s wall or floor. Only the part inside is counted.`,
      remedy: 'Move it inward or up, turn it, make it smaller, or choose a larger mold.',
      pours: poursWithin(planned, solid.bounds.min[2], solid.bounds.max[2]),
    },
  ];
}

function tightness(planned: Planned, { placement, reading, solid }: SolidAt): Finding[] {
  if (!reading || (reading.watertight && reading.repairs.length === 0)) return [];
  const done = reading.repairs.join(' ') || 'The surface is open.';
  if (reading.volumeErrorFraction === null || !solid) {
    return [
      {
        code: 'not-watertight',
        severity: 'halt',
        subject: placement.id,
        message: `${placement.name}: ${done} Its volume can’t be told, so it is left out of every amount.`,
        remedy: 'Mend the mesh in the program that made it, or measure the real object in water and enter its volume.',
        pours: planned.pours.filter((pour) => pour.toMm > placement.baseMm).map((pour) => pour.index),
      },
    ];
  }
  return [
    {
      code: 'not-watertight',
      severity: 'caution',
      subject: placement.id,
      message: `${placement.name}: ${done} Its volume is right to about ${percent(Math.max(reading.volumeErrorFraction, 0.001))}.`,
      remedy: 'If that matters, mend the mesh or measure the real object in water.',
    },
  ];
}

function aboveFill({ scene }: Planned, { placement, solid }: SolidAt): Finding[] {
  const over = (solid?.bounds.max[2] ?? 0) - scene.fillMm;
  if (placement.kind !== 'figure' || over <= STOP_TOLERANCE_MM) return [];
  return [
    {
      code: 'above-fill',
      severity: 'caution',
      subject: placement.id,
      message: `${placement.name} stands ${mm(over)} out of the resin.`,
      remedy: `Lower it by ${mm(over)}, or fill to ${plain(scene.fillMm + over)}, if it should be covered.`,
    },
  ];
}

function floating(planned: Planned, solid: SolidAt): Finding[] {
  const { placement, floats, liftG, safeLockMm, steelG } = solid;
  if (!floats) return [];
  const findings: Finding[] = [];
  const first = firstTopAbove(placement.baseMm, planned.pours.map(({ toMm }) => toMm)) ?? 0;
  const top = solid.solid?.bounds.max[2] ?? Infinity;
  const covering = planned.pours.filter((pour) => pour.toMm >= first && pour.fromMm < top).map((pour) => pour.index);
  if (planned.unlockable.includes(placement.id)) {
    const thread = placement.hold === 'thread';
    findings.push({
      code: 'cannot-lock',
      severity: 'halt',
      subject: placement.id,
      message: thread
        ? `${placement.name} rises with ${lift(liftG!)}, and a thread can’t hold it down.`
        : `${placement.name} rises with ${lift(liftG!)}. A pour that locks it may be ${mm(tenthBelow(safeLockMm!))} deep at most, and ${planned.crowded.includes(placement.id) ? 'what else floats in this layer leaves no line for it' : 'no line fits there'}.`,
      remedy: `Add ${grams(tenthAbove(steelG!))} of steel inside it, fasten it or set it on a rod${thread ? '' : ', or choose a formula that pours thinner'}.`,
      pours: covering,
    });
  }
  if (placement.hold === 'thread') return findings;
  const locking = planned.pours.find((pour) => pour.locks.includes(placement.id));
  const held = locking && !planned.unlockable.includes(placement.id) ? `Pour ${locking.index} locks it. ` : '';
  findings.push({
    code: 'floats',
    severity: 'caution',
    subject: placement.id,
    message: `${placement.name} is lighter than the resin and rises with ${lift(liftG!)}. ${held}Over ${mm(tenthBelow(safeLockMm!))} deep it could float.`,
    remedy: `${held ? 'Let that pour turn tacky before the next. Or add' : 'Add'} ${grams(tenthAbove(steelG!))} of steel, or fasten it.`,
  });
  return findings;
}

function weights(at: SolidAt): Finding[] {
  return [...weightOf(at), ...unknownMaterial(at)];
}

/** A material that is not on the list weighs nothing here; better told than taken as none given. */
function unknownMaterial({ placement, massG }: SolidAt): Finding[] {
  const { material } = placement;
  if (massG !== null || placement.densityGPerMl !== undefined || material === undefined || MATERIALS.includes(material)) return [];
  return [
    {
      code: 'material-unknown',
      severity: 'note',
      subject: placement.id,
      message: `${placement.name} is of “${material}”, a material without a typical weight here, so it has none.`,
      remedy: `Weigh it, or say the nearest of these: ${MATERIALS.join(', ')}.`,
    },
  ];
}

function weightOf({ placement, massG, massIsTypical }: SolidAt): Finding[] {
  const loose = placement.hold === 'rests' || placement.hold === 'stands' || placement.hold === 'thread';
  if (massG === null && placement.kind === 'figure' && loose) {
    return [
      {
        code: 'weight-unknown',
        severity: 'caution',
        subject: placement.id,
        message: `Nobody knows yet whether ${placement.name} floats: it has no weight.`,
        remedy: 'Weigh it, or say what it is made of, or fasten it.',
      },
    ];
  }
  if (!massIsTypical) return [];
  return [
    {
      code: 'typical-value',
      severity: 'note',
      subject: placement.id,
      message: `${placement.name} has no weight of its own; ${grams(massG!)} is reckoned from typical ${materialWords(placement.material!)}.`,
      remedy: 'Weigh it: prints are often hollow and lighter.',
    },
  ];
}

function overlaps({ scene, displacement }: Planned): Finding[] {
  return displacement.overlaps.map(({ a, b, volumeMm3, lighter }) => ({
    code: 'figures-overlap',
    severity: 'note' as const,
    subject: `${a}, ${b}`,
    message: `${nameOf(scene, a)} and ${nameOf(scene, b)} share ${volumeMm3 < 100 ? `under ${ml(0.1)}` : `${lighter ? 'about ' : ''}${ml(volumeMm3 / MM3_PER_ML)}`}${lighter ? ', measured on a lighter copy' : ''}. It is counted once.`,
    remedy: 'If they should only touch, move one of them.',
  }));
}

function cutPlanes({ scene, solids }: Planned): Finding[] {
  const findings: Finding[] = [];
  for (const plane of scene.placements) {
    if (plane.kind !== 'plane') continue;
    for (const { placement, solid } of solids) {
      if (placement.kind !== 'figure' || !solid) continue;
      const { min, max } = solid.bounds;
      if (plane.atMm <= min[2] + STOP_TOLERANCE_MM || plane.atMm >= max[2] - STOP_TOLERANCE_MM) continue;
      findings.push({
        code: 'plane-cuts-figure',
        severity: 'caution',
        subject: `${plane.id}, ${placement.id}`,
        message: `${plane.name} is painted at ${mm(plane.atMm)}, where ${placement.name} sticks through the surface.`,
        remedy: `Paint round it, or move the plane above ${mm(max[2])}${min[2] > STOP_TOLERANCE_MM ? ` or below ${mm(min[2])}` : ''}.`,
      });
    }
  }
  return findings;
}

/** A plane inside a bed that fills the whole section is covered before anyone sees it. */
function buriedPlanes({ scene, layers }: Planned): Finding[] {
  const opens = layers[0].fromMm;
  return scene.placements.flatMap((plane): Finding[] => {
    if (plane.kind !== 'plane' || plane.atMm <= STOP_TOLERANCE_MM || plane.atMm >= opens - STOP_TOLERANCE_MM) return [];
    return [
      {
        code: 'plane-in-bed',
        severity: 'caution',
        subject: plane.id,
        message: `${plane.name} is painted at ${mm(plane.atMm)}, inside the bed that fills the mold up to ${mm(opens)}: nobody will see it.`,
        remedy: `Move it up to ${plain(opens)}, or make the bed lower.`,
      },
    ];
  });
}

/** A lift too small for a tenth is still a lift. */
function lift(liftG: number): string {
  return liftG < 0.05 ? `under ${grams(0.1)}` : grams(liftG);
}
