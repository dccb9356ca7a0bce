/** The scene file of version 1 as it was first described. Stored: later versions must go on reading it; do not change it. */
export const EXAMPLE_V1 = {
  format: 'stillpool.scene', version: 1, name: 'Mill pond, evening',
  mold: { shape: 'box', lengthMm: 200, widthMm: 120, heightMm: 60, draftDeg: 0, cornerRadiusMm: 0, material: 'silicone', wallMm: 8, keep: false },
  cast: 'face-up',
  fillMm: 55,
  fills: [
    { toMm: 30, formula: 'low', tint: { color: '#2f6f73', percent: 0.1 } },
    { toMm: 55, formula: 'general' },
  ],
  placements: [
    { id: 'p1', kind: 'plane', name: 'Lily shadows', atMm: 20, paintH: 3, dryH: 8, art: { file: 'assets/lily.svg', widthMm: 120, xMm: 0, yMm: 0, turnDeg: 0, mirror: false } },
    {
      id: 'f1', kind: 'figure', name: 'Newt', shape: { type: 'mesh', file: 'assets/newt.stl', unit: 'mm' }, xMm: 10, yMm: -5, baseMm: 20, turnDeg: [0, 0, 30], scale: 1,
      massG: 5.4, material: 'pla', hold: 'rests', limitC: 50, porous: false, sealed: true,
    },
    { id: 'b1', kind: 'bed', name: 'Sand slope', voidFraction: 0, hold: 'fixed', shape: { type: 'wedge', lengthMm: 200, widthMm: 120, heightMm: 30 }, xMm: 0, yMm: 0, baseMm: 0 },
  ],
  formulas: [
    {
      id: 'low', name: 'Low-viscosity casting (typical)', family: 'low-viscosity', ratioByVolume: [2, 1], ratioByMass: [100, 42.17], densityAGPerMl: 1.15, densityBGPerMl: 0.97,
      maxDepthMm: 25, minDepthMm: 5, maxBatchG: 1500, atC: 23, potLifeMin: 90, potLifeMassG: 100, bondOpensH: 10, bondClosesH: 26, scuffableH: 30, paintableH: 36, demoldH: 48, fullCureH: 168,
      viscosityMPaS: 400, refractiveIndex: 1.53, shrinkageFraction: 0, price: { kitMl: 1500, amount: 48, currency: 'USD' },
    },
  ],
  heat: { model: 'simulated' },
  room: { temperatureC: 23, profile: [{ from: '2026-05-04T20:00', temperatureC: 18 }] },
  bench: { start: '2026-05-04T08:00', hours: [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }], scaleG: 0.1, holdUpMl: 8, allowanceFraction: 0.05, pourH: 0.5, scuffH: 0.5, watchH: 0.5 },
};
