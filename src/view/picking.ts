/** What a line of sight points at. */

import type { Scene } from '../core/scene/scene.ts';
import type { Vec3 } from './eye.ts';
import type { PaintedSheet } from './painted-sheet.ts';
import type { Ray } from './ray.ts';
import type { Body } from './solid-model.ts';

export interface Picked {
  readonly id: string;
  readonly kind: 'figure' | 'bed' | 'plane' | 'creature';
  readonly point: Vec3;
}

/** By id, as they are drawn. */
export interface Pickable {
  readonly bodies: ReadonlyMap<string, { readonly group: { readonly visible: boolean } } & Pick<Body, 'hit'>>;
  readonly sheets: ReadonlyMap<string, { readonly object: { readonly visible: boolean } } & Pick<PaintedSheet, 'hit'>>;
}

interface Hit {
  readonly id: string;
  readonly kind: Picked['kind'];
  readonly distance: number;
}

/**
 * The nearest thing along the sight. Paint counts where it is thick enough to point at; a guide means its creature. The
 * form of a creature is only imagined: it gives way to figures and guides that are seen through it.
 */
export function pickAlong(ray: Ray, { placements, creatures }: Pick<Scene, 'placements' | 'creatures'>, { bodies, sheets }: Pickable): Picked | null {
  const body = (id: string, kind: Picked['kind']): readonly Hit[] => {
    const own = bodies.get(id);
    const distance = own?.group.visible ? own.hit(ray) : null;
    return distance === null ? [] : [{ id, kind, distance }];
  };
  const paint = (id: string): readonly Hit[] => {
    const sheet = sheets.get(id);
    const hit = sheet?.object.visible ? sheet.hit(ray) : null;
    if (!hit) return [];
    return [hit.creature === null ? { id, kind: 'plane', distance: hit.distance } : { id: hit.creature, kind: 'creature', distance: hit.distance }];
  };
  const seen = nearestOf(placements.flatMap(({ id, kind }) => (kind === 'plane' ? paint(id) : body(id, kind))));
  const inTheWay = seen?.kind === 'figure' || seen?.kind === 'creature';
  const found = inTheWay ? seen : nearestOf([...(seen ? [seen] : []), ...creatures.flatMap(({ id }) => body(id, 'creature'))]);
  return found && { id: found.id, kind: found.kind, point: [0, 1, 2].map((k) => ray.origin[k] + found.distance * ray.direction[k]) as unknown as Vec3 };
}

function nearestOf(hits: readonly Hit[]): Hit | null {
  return hits.reduce<Hit | null>((best, hit) => (best && best.distance <= hit.distance ? best : hit), null);
}
