import { describe, expect, it } from 'vitest';
import { gaugeSpace, startsLow } from '../../../src/screens/shared/gauge-room.ts';

/** Of look.md: the slip takes at most this share of the window. */
const SLIP_SHARE = 0.4;
/** px from the window's top to the gauge's mold on a phone: two rows of the bar. Measured on the page. */
const BAR_PX = 98;

describe.each([false, true])('the gauge’s room, over a slip: %s', (overSlip) => {
  it('is the same on every screen from 800 px up', () => {
    for (const widthPx of [800, 1199, 1200, 2560]) expect(gaugeSpace({ widthPx, heightPx: 900 }, overSlip)).toEqual(gaugeSpace({ widthPx, heightPx: 900 }, !overSlip));
  });

  it('gives way to the bar’s second row under 1200 px', () => {
    const wide = gaugeSpace({ widthPx: 1200, heightPx: 900 }, overSlip);
    const middle = gaugeSpace({ widthPx: 1199, heightPx: 900 }, overSlip);
    expect(wide.heightPx - middle.heightPx).toBe(26);
    expect([wide.narrow, middle.narrow]).toEqual([false, false]);
  });

  it('never falls with a higher window', () => {
    for (const widthPx of [390, 900, 1440]) {
      let before = 0;
      for (let heightPx = 600; heightPx <= 1600; heightPx += 25) {
        const { heightPx: px } = gaugeSpace({ widthPx, heightPx }, overSlip);
        expect(px).toBeGreaterThanOrEqual(before);
        before = px;
      }
    }
  });
});

it.each([[390, 844], [390, 700], [720, 450], [320, 568]])('at %i × %i the slip leaves the gauge free', (widthPx, heightPx) => {
  const viewport = { widthPx, heightPx };
  const slip = startsLow(viewport) ? 96 : heightPx * SLIP_SHARE;
  expect(BAR_PX + gaugeSpace(viewport, true).heightPx).toBeLessThanOrEqual(heightPx - slip);
});

it('starts lowered under 600 px of height only', () => {
  expect([450, 599, 600, 844].map((heightPx) => startsLow({ heightPx }))).toEqual([true, true, false, false]);
});
