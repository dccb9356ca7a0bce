/** How deep planes, figures and the far side look through the finished face; how deep they are stands in the section. */
import { backMm, faceMm, pouredStrata, seenDepthMm, stepsBetween } from '../sight/water.ts';
import type { SheetContext } from './context.ts';
import type { Block } from './flow.ts';
import { heading, paragraph } from './flow.ts';
import type { Words } from './pen.ts';
import { SMALL_PT } from './pen.ts';

/** A paragraph is set in one piece. */
const MOST_TOGETHER = 12;

interface Seen {
  readonly name: string;
  /** Upwards; one of a plane. */
  readonly heightsMm: readonly number[];
}

/** A heading, then all from the floor up: `the floor 35.8; Lily shadows 22.7; Newt 22.7 to 8.5.` */
export function seenDepths(sheet: SheetContext, widthMm: number): Block[] {
  const { scene, plan, lettering, words } = sheet;
  const strata = pouredStrata(scene, plan);
  const far = { name: scene.cast === 'face-up' ? 'the floor' : 'the back', heightsMm: [backMm(scene)] };
  const things = [far, ...inResin(sheet)].sort((a, b) => a.heightsMm[0] - b.heightsMm[0]);
  const last = things.length - 1;
  const all = things.map(({ name, heightsMm }, i): Words[] => {
    const seen = heightsMm.map((mm) => words.number(seenDepthMm(stepsBetween(strata, faceMm(scene), mm))));
    return [{ text: name, face: 'italic' }, ` ${seen.join(' to ')}${i === last ? '.' : '; '}`];
  });
  const together = Array.from({ length: Math.ceil(all.length / MOST_TOGETHER) }, (_, i) => all.slice(i * MOST_TOGETHER, (i + 1) * MOST_TOGETHER).flat());
  return [heading(`How deep it looks, ${words.unit}`, widthMm, lettering), ...together.map((some) => paragraph(some, widthMm, lettering, { pt: SMALL_PT }))];
}

function inResin({ scene, plan }: SheetContext): Seen[] {
  const { fillMm, placements } = scene;
  const tops = new Map(plan.placements.map(({ id, topMm }) => [id, topMm]));
  return placements.flatMap((placement): Seen[] => {
    if (placement.kind === 'plane') return [{ name: placement.name, heightsMm: [Math.min(placement.atMm, fillMm)] }];
    const topMm = tops.get(placement.id);
    if (placement.kind === 'bed' || topMm === undefined || placement.baseMm >= fillMm) return [];
    return [{ name: placement.name, heightsMm: [Math.max(placement.baseMm, 0), Math.min(topMm, fillMm)] }];
  });
}
