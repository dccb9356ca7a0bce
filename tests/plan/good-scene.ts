/** One scene that uses most rules at once, for planting faults: gravel, draft, two fills, merged planes, a floater, a picture on the top, cold nights. */

export const GOOD_SCENE = {
  format: 'stillpool.scene',
  version: 1,
  name: 'Everything at once',
  mold: { shape: 'box', lengthMm: 160, widthMm: 110, heightMm: 60, draftDeg: 3, cornerRadiusMm: 6 },
  fillMm: 50,
  fills: [
    { toMm: 20, formula: 'low', tint: { color: '#2f6f73', percent: 0.1 } },
    { toMm: 50, formula: 'gen', tint: { color: '#2f6f73', percent: 0.05 } },
  ],
  placements: [
    { id: 'p0', kind: 'plane', name: 'Floor', atMm: 0, paintH: 2, dryH: 8.25 },
    { id: 'p1', kind: 'plane', name: 'Shadows', atMm: 20, paintH: 3, dryH: 8 },
    { id: 'p2', kind: 'plane', name: 'Weeds', atMm: 20.03, paintH: 1, dryH: 10 },
    { id: 'p3', kind: 'plane', name: 'Ripples', atMm: 50, paintH: 1, dryH: 6 },
    { id: 'gravel', kind: 'bed', name: 'Gravel', voidFraction: 0.4, massG: 40, shape: { type: 'box', lengthMm: 80, widthMm: 40, heightMm: 5 } },
    { id: 'newt', kind: 'figure', name: 'Newt', shape: { type: 'box', lengthMm: 20, widthMm: 20, heightMm: 20 }, xMm: 40, yMm: 30, baseMm: 20, massG: 5.4, hold: 'rests' },
    { id: 'snail', kind: 'figure', name: 'Snail', shape: { type: 'cone', radiusMm: 8, heightMm: 10 }, xMm: -40, yMm: -30, baseMm: 36, material: 'stone', hold: 'rests' },
    { id: 'reed', kind: 'figure', name: 'Reed', shape: { type: 'cylinder', radiusMm: 4, heightMm: 30 }, xMm: -60, yMm: 35, baseMm: 0, densityGPerMl: 0.5, hold: 'fixed' },
  ],
  formulas: [
    {
      id: 'low', family: 'low-viscosity', ratioByVolume: [2, 1], ratioByMass: [100, 42.17], densityAGPerMl: 1.15, densityBGPerMl: 0.97, maxDepthMm: 12, minDepthMm: 5,
      maxBatchG: 150, atC: 23, potLifeMin: 90, potLifeMassG: 100, bondOpensH: 10, bondClosesH: 26, scuffableH: 30, paintableH: 36, demoldH: 48, fullCureH: 168,
      viscosityMPaS: 400, refractiveIndex: 1.53, shrinkageFraction: 0.02,
    },
    {
      id: 'gen', family: 'general', ratioByMass: [100, 86.2], densityAGPerMl: 1.16, densityBGPerMl: 1, maxDepthMm: 18, minDepthMm: 3, maxBatchG: 400, atC: 23,
      potLifeMin: 40, potLifeMassG: 100, bondOpensH: 5.5, bondClosesH: 9, scuffableH: 20, paintableH: 22, demoldH: 36, fullCureH: 120,
      viscosityMPaS: 1000, refractiveIndex: 1.545, shrinkageFraction: 0,
    },
  ],
  heat: { model: 'label' },
  room: {
    temperatureC: 23,
    profile: [
      { from: '2028-02-27T20:00', temperatureC: 18 }, { from: '2028-02-28T07:00', temperatureC: 23 }, { from: '2028-02-28T20:00', temperatureC: 18 },
      { from: '2028-02-29T07:00', temperatureC: 23 }, { from: '2028-02-29T20:00', temperatureC: 18 }, { from: '2028-03-01T07:00', temperatureC: 23 },
    ],
  },
  bench: { start: '2028-02-25T09:10', hours: [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }], scaleG: 0.1, holdUpMl: 8, allowanceFraction: 0.05, pourH: 0.5, scuffH: 0.5, watchH: 0.5 },
} as const;
