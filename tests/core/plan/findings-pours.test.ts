/** What is said of pours that are too thin. */
import { expect, it } from 'vitest';
import { planOf, scene, TL } from '../../plan/planning.ts';

it('many thin pours in a row are named from first to last', () => {
  // A label that needs 9 mm to level and allows 4: 33 mm are nine pours of 3.67, under 0.6 × 9 (by hand).
  const plan = planOf(scene({ fillMm: 33, formulas: [{ ...TL, maxDepthMm: 4, minDepthMm: 9 }] }));
  const [thin] = plan.findings.filter(({ code }) => code === 'layer-too-thin');
  expect(thin).toMatchObject({ severity: 'halt', pours: [1, 2, 3, 4, 5, 6, 7, 8, 9] });
  expect(thin.message).toMatch(/^Pours 1 to 9 would be 3\.67\u00a0mm\./);
});
