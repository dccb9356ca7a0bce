/** Where pours and the work on their tops stand to a class: before it, in it, after it. */
import { listed } from '../../units/format.ts';
import type { ClassPlan } from '../plan.ts';

/** Null: nothing is ready for the class, so nothing is before or after it. */
export function classTimeOf({ paints, sets, pours, pouredBefore }: ClassPlan, index: number): 'before' | 'in' | 'after' | null {
  if (paints.length === 0 && sets.length === 0 && pours === null) return null;
  return pours === index ? 'in' : pouredBefore.includes(index) ? 'before' : 'after';
}

/** What students do on this pour's top once it is ready, `paints Lily shadows`; null: nothing. `nameOf` gives a thing's name by its id. */
export function classWorkAfter({ paints, sets, pours, pouredBefore }: ClassPlan, index: number, nameOf: (id: string) => string): string | null {
  if (index !== (pouredBefore.at(-1) ?? 0)) return null;
  const does = [
    ...(paints.length > 0 ? [`paints ${listed(paints.map(nameOf))}`] : []),
    ...(sets.length > 0 ? [`sets ${listed(sets.map(nameOf))} in place`] : []),
    ...(pours !== null ? [`pours pour ${pours} from a cup of their own`] : []),
  ];
  return does.length > 0 ? listed(does) : null;
}
