/** What is said of pours that are too thin, and of molds that hold on to the resin. */
import { describe, expect, it } from 'vitest';
import { planOf, scene, TL } from '../../plan/planning.ts';

it('many thin pours in a row are named from first to last', () => {
  // A label that needs 9 mm to level and allows 4: 33 mm are nine pours of 3.67, under 0.6 × 9 (by hand).
  const plan = planOf(scene({ fillMm: 33, formulas: [{ ...TL, maxDepthMm: 4, minDepthMm: 9 }] }));
  const [thin] = plan.findings.filter(({ code }) => code === 'layer-too-thin');
  expect(thin).toMatchObject({ severity: 'halt', pours: [1, 2, 3, 4, 5, 6, 7, 8, 9] });
  expect(thin.message).toMatch(/^Pours 1 to 9 would be 3\.67\u00a0mm\./);
});

describe('a mold that resin bonds to (trade.md §3.3)', () => {
  const told = (mold: object) => {
    const { findings, steps } = planOf(scene({ fillMm: 6, mold, placements: [{ id: 'p', kind: 'plane', name: 'Ripples', atMm: 6 }] }));
    const said = (kind: string) => steps.filter((step) => step.kind === kind).map(({ text }) => text).join(' ');
    return { codes: findings.map(({ code }) => code), demold: said('demold'), prepare: said('prepare'), finish: said('finish') };
  };

  it.each(['acrylic', 'glass', 'wood'])('%s: is cautioned of, lined and not flexed, unless the piece stays in it', (material) => {
    const { codes, demold, prepare } = told({ material });
    expect(codes).toContain('bonds-to-mold');
    expect(demold).not.toContain('flex the corners');
    expect(prepare).toContain('Line its inside');
    expect(told({ material, keep: true }).codes).not.toContain('bonds-to-mold');
  });

  it('silicone is not; and a painted top is never sanded', () => {
    const { codes, demold, finish } = told({ material: 'silicone' });
    expect(codes).not.toContain('bonds-to-mold');
    expect(demold).toContain('flex the corners');
    expect(finish).toContain('Never sand the top, where Ripples is painted');
  });
});
