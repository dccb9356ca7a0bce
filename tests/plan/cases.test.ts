/**
 * Acceptance cases 1–9: hand arithmetic on invented profiles, closed-form geometry and unit definitions
 * (25.4 mm; 29.5735295625 mL: NIST SP 811, Handbook 44). Rate doubling per 10 °C: common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { planOf, scene, TL } from './planning.ts';

/** ±0.5 %, the acceptance tolerance. */
const near = (actual: number, expected: number) => expect(Math.abs(actual / expected - 1), `${actual} for ${expected}`).toBeLessThanOrEqual(0.005);
const MIN_PER_DAY = 1440;
/** Minutes between two plan times by the JavaScript engine's own calendar (an independent one). */
const minutesBetween = (from: string, to: string) => (Date.parse(`${to}:00Z`) - Date.parse(`${from}:00Z`)) / 60000;
/** Clock times to a minute. */
const sameTime = (actual: string, expected: string) => expect(Math.abs(minutesBetween(actual, expected)), `${actual} for ${expected}`).toBeLessThanOrEqual(1);
const FLOZ = 29.5735295625;

describe('acceptance cases', () => {
  it('1: a box layer', () => {
    const { pours: [pour] } = planOf(scene({ fillMm: 6 }));
    near(pour.netMl, 144.0);
    near(pour.mixMl, 159.2);
    near(pour.mixMl / FLOZ, 5.38);
    near(pour.partA.ml, 106.13);
    near(pour.partA.g, 122.05);
    near(pour.partB.ml, 53.07);
    near(pour.partB.g, 51.47);
    near(pour.mixG, 173.5);
    expect(pour.batches[0].scaleStopsG).toEqual([122.1, 173.6]);
  });

  it('2: the ratio trap', () => {
    const both = planOf(scene({ fillMm: 6, formulas: [{ ...TL, ratioByMass: [2, 1] }] }));
    expect(both.findings.find((finding) => finding.code === 'ratio-conflict')).toMatchObject({ severity: 'halt', subject: 'formula TL' });
    expect(both.findings.find((finding) => finding.code === 'ratio-conflict')!.message).toContain('18.6');
    const alone = planOf(scene({ fillMm: 6, formulas: [{ ...TL, ratioByVolume: undefined, ratioByMass: [2, 1] }] }));
    expect(alone.findings.find((finding) => finding.code === 'ratio-unconfirmed')).toMatchObject({ severity: 'caution' });
    expect(alone.findings.some((finding) => finding.code === 'ratio-conflict')).toBe(false);
    // 12 g of hardener: a net volume chosen so that part B weighs 12 g.
    const length = (((12 * (100 + 42.17)) / 42.17 / 1.09 - 8) / 1.05 / (120 * 6)) * 1000;
    const coarse = (scaleG: number) => planOf(scene({ fillMm: 6, mold: { lengthMm: length }, bench: { scaleG } })).findings.find((finding) => finding.code === 'scale-coarse');
    expect(coarse(1)).toMatchObject({ severity: 'halt' });
    expect(coarse(1)!.message).toContain('8.3');
    expect(coarse(0.1)).toBeUndefined();
  });

  it('3: a round mold in inches', () => {
    const { pours: [pour] } = planOf(scene({
      mold: { shape: 'round', diameterMm: 6 * 25.4, heightMm: 25 }, fillMm: 0.375 * 25.4, fills: [{ toMm: 0.375 * 25.4, formula: 'TG' }], bench: { holdUpMl: 6 },
    }));
    near(pour.netMl, 173.75);
    near(pour.mixMl, 188.4);
    near(pour.mixMl / FLOZ, 6.37);
    near(pour.partA.ml / FLOZ, 3.19);
    near(pour.partB.ml / FLOZ, 3.19);
    near(pour.partA.g, 109.3);
    near(pour.partB.g, 94.2);
  });

  it('4: displacement', () => {
    // 42 mL within the span: a 60 × 50 × 14 mm block on the floor of the span.
    const plan = planOf(scene({
      mold: { lengthMm: 150, widthMm: 150 }, fillMm: 35, fills: [{ toMm: 20, formula: 'TL' }, { toMm: 35, formula: 'TL' }],
      placements: [{ id: 'f', kind: 'figure', hold: 'rod', baseMm: 20, massG: 60, shape: { type: 'box', lengthMm: 60, widthMm: 50, heightMm: 14 } }],
    }));
    near(plan.pours[1].netMl, 295.5);
    near((plan.pours[1].displacedMl * 1000) / (150 * 150), 1.87);
  });

  it('5: a sloped bed and a gravel bed', () => {
    const wedge = { id: 'b', kind: 'bed', shape: { type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 30 } };
    const plan = planOf(scene({ fillMm: 30, fills: [{ toMm: 15, formula: 'TL' }, { toMm: 30, formula: 'TL' }], placements: [wedge] }));
    expect(plan.layers[0].fromMm).toBe(0);
    near(plan.layers[0].netMl, 90);
    near(plan.layers[1].netMl, 270);
    const gravel = { id: 'b', kind: 'bed', voidFraction: 0.4, shape: { type: 'box', lengthMm: 200, widthMm: 120, heightMm: 10 } };
    near(planOf(scene({ fillMm: 10, placements: [gravel] })).layers[0].netMl, 96);
  });

  it('6: too much at once, and too thin', () => {
    const general = (fillMm: number, temperatureC = 23) => planOf(scene({ fillMm, fills: [{ toMm: fillMm, formula: 'TG' }], room: { temperatureC } }));
    expect(general(30).pours.map((pour) => pour.depthMm)).toEqual([10, 10, 10]);
    expect(general(30, 18).pours).toHaveLength(3);
    const [cold] = general(12, 18).pours;
    near(minutesBetween(cold.ends, cold.paintable), 22 * 60 * 1.41);
    const thin = (fillMm: number) => planOf(scene({ fillMm })).findings.find((finding) => finding.code === 'layer-too-thin');
    expect(thin(4)).toMatchObject({ severity: 'caution', subject: 'layer 1' });
    expect(thin(2.9)).toMatchObject({ severity: 'halt', pours: [1] });
    expect(thin(5)).toBeUndefined();
  });

  it('7: a floater', () => {
    // Mixed 1.10 g/mL: part A and part B both 1.10.
    const liquid = { ...TL, densityAGPerMl: 1.1, densityBGPerMl: 1.1 };
    const prism = { id: 'f', kind: 'figure', name: 'Prism', baseMm: 20, massG: 5.4, hold: 'rests', shape: { type: 'box', lengthMm: 20, widthMm: 20, heightMm: 20 } };
    const plan = planOf(scene({ fillMm: 40, placements: [prism], formulas: [liquid] }));
    const [figure] = plan.placements;
    near(figure.volumeMl!, 8.0);
    near(figure.liftG!, 3.4);
    near(figure.safeLockMm! / 0.8, 12.27);
    near(figure.safeLockMm!, 9.82);
    near(figure.steelG!, 3.95);
    expect(plan.pours.map((pour) => [pour.fromMm, pour.toMm])).toEqual([[0, 20], [20, 29.5], [29.5, 40]]);
    expect(plan.pours.map((pour) => pour.locks)).toEqual([[], ['f'], []]);
    const nextStop = planOf(scene({ fillMm: 40, fills: [{ toMm: 30, formula: 'TL' }, { toMm: 40, formula: 'TL' }], placements: [prism], formulas: [liquid] }));
    expect(nextStop.pours.map((pour) => [pour.fromMm, pour.toMm])).toEqual([[0, 20], [20, 25], [25, 30], [30, 40]]);
  });

  it('8: a cold night moves the window', () => {
    const night = { temperatureC: 23, profile: [{ from: '2026-05-04T19:00', temperatureC: 18 }, { from: '2026-05-05T08:00', temperatureC: 23 }] };
    const at = (room: object) => planOf(scene({ fillMm: 6, room, bench: { start: '2026-05-04T19:30', watchH: 0 } })).pours[0];
    const cold = at(night);
    expect([cold.starts, cold.ends]).toEqual(['2026-05-04T19:30', '2026-05-04T20:00']);
    sameTime(cold.opens, '2026-05-05T09:31');
    sameTime(cold.closes, '2026-05-06T01:09');
    const even = at({ temperatureC: 23 });
    sameTime(even.opens, '2026-05-05T06:00');
    sameTime(even.closes, '2026-05-05T21:30');
  });

  it('9: six painted planes', () => {
    const planes = (dryH: number) => [8, 14, 20, 26, 32, 38].map((atMm, i) => ({ id: `p${i}`, kind: 'plane', atMm, paintH: 3, dryH }));
    const plan = (dryH: number, watchH: number) => planOf(scene({ fillMm: 44, placements: planes(dryH), bench: { start: '2026-05-04T19:30', watchH } }));
    const slow = plan(12, 0);
    expect(slow.pours[0].ends).toBe('2026-05-04T20:00');
    sameTime(slow.pours[1].starts, '2026-05-07T08:00');
    for (let i = 2; i <= 6; i++) expect(minutesBetween(slow.pours[i - 1].starts, slow.pours[i].starts)).toBe(72 * 60);
    expect(minutesBetween(slow.pours[0].ends, slow.pours[6].starts) / MIN_PER_DAY).toBe(17.5);
    const fast = plan(8, 0);
    for (let i = 2; i <= 6; i++) expect(minutesBetween(fast.pours[i - 1].starts, fast.pours[i].starts)).toBe(48 * 60);
    expect(minutesBetween(fast.pours[0].ends, fast.pours[6].ends) / MIN_PER_DAY).toBe(12);
    expect(minutesBetween(fast.pours[6].starts, slow.pours[6].starts) / MIN_PER_DAY).toBeCloseTo(5.5, 1);
    // With the watch the evening pours no longer fit and most of the saving is gone.
    const watched = { slow: plan(12, 0.5), fast: plan(8, 0.5) };
    const saved = minutesBetween(watched.fast.pours[6].starts, watched.slow.pours[6].starts) / MIN_PER_DAY;
    expect(saved).toBeLessThan(2);
    // The tool shows both.
    const told = (plan: ReturnType<typeof planOf>) => plan.findings.find((finding) => finding.code === 'drying-days')?.message;
    expect(told(slow)).toContain('5\u00a0d 12½\u00a0h');
    expect(told(watched.slow)).toContain('no closer');
    expect(told(fast)).toBeUndefined();
  });
});
