/** The few colors that newly show on a plane, how much of each, and what to paint so that they look so under the resin over it. */
import { useMemo } from 'react';
import type { PlaneGuide } from '../../core/sight/guide.ts';
import { paintToRead } from '../../core/sight/paint.ts';
import { lightBack } from '../../core/sight/plane-paints.ts';
import { pouredStrata } from '../../core/sight/water.ts';
import { percent } from '../../core/units/format.ts';
import { useDerived } from '../shared/piece.ts';

export function MainColors({ guide }: { readonly guide: PlaneGuide }) {
  const { scene, plan } = useDerived();
  const { colors, atMm } = guide;
  const rows = useMemo(() => {
    const left = lightBack(scene, pouredStrata(scene, plan), atMm);
    return (colors?.main ?? []).map((color) => ({ ...color, toRead: paintToRead(color.hex, left).words }));
  }, [scene, plan, colors, atMm]);
  if (rows.length === 0) return null;
  return (
    <ul className="paint-colors" aria-label="Colors that newly show here">
      {rows.map(({ hex, words, share, toRead }) => (
        <li key={hex}>
          <svg width="32" height="32" aria-hidden="true"><rect x="1" y="1" width="30" height="30" fill={hex} className="paint-patch" /></svg>
          <span><b>{percent(share, 0)}</b> {words}, {hex} <span className="soft">{toRead}</span></span>
        </li>
      ))}
    </ul>
  );
}
