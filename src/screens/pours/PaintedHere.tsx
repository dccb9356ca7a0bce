/** At a pour's top where planes are painted, and before the first pour on the floor: what comes in which order, and the way to the templates. */
import type { Plan, Pour } from '../../core/plan/plan.ts';
import type { Plane, Scene } from '../../core/scene/scene.ts';
import { planesUpward } from '../../core/sheet/template-planes.ts';
import { withinPlane } from '../../core/sight/painting-words.ts';
import { ordinal } from '../planes/ordinal.ts';
import { TemplateLink } from '../shared/TemplateLink.tsx';
import './painted-here.css';

export interface PaintedHereProps {
  readonly pour: Pour;
  readonly scene: Scene;
  readonly steps: Plan['steps'];
}

export function PaintedHere({ pour, scene, steps }: PaintedHereProps) {
  const planes = planesUpward(scene);
  const heights = [...new Set(planes.map(({ atMm }) => atMm))];
  const on = (at: number): readonly Plane[] => {
    const ids = steps.filter((step) => step.kind === 'paint' && (step.pour ?? 0) === at).flatMap(({ placements }) => placements);
    return planes.filter(({ id }) => ids.includes(id));
  };
  const line = (plane: Plane, where: string) => (
    <li key={plane.id}>
      <p>
        <b>{where} {plane.name}</b>{heights.length > 1 && `, ${ordinal(heights.indexOf(plane.atMm) + 1)} of ${heights.length}`}.
        {plane === firstAlike(planes, plane) && <span className="soft"> {orderWords(plane, scene.cast)}</span>}
      </p>
      <TemplateLink plane={plane} words="Its template" />
    </li>
  );
  const before = pour.index === 1 ? on(0) : [];
  const after = on(pour.index);
  if (before.length + after.length === 0) return null;
  return <ul className="painted-here">{before.map((plane) => line(plane, 'On the mold’s floor, before this pour: paint'))}{after.map((plane) => line(plane, 'Then paint'))}</ul>;
}

const isSliced = ({ slices = [] }: Plane): boolean => slices.length > 0;

/** What is said once for all of a kind stands at the first. */
function firstAlike(planes: readonly Plane[], plane: Plane): Plane | undefined {
  return planes.find((other) => isSliced(other) === isSliced(plane));
}

function orderWords(plane: Plane, cast: Scene['cast']): string {
  if (isSliced(plane)) return `First ${withinPlane(cast).join(', then ')}.`;
  return cast === 'face-down' ? 'What lies nearest the viewer first, the ground last.' : 'The ground first, what lies nearest the viewer last.';
}
