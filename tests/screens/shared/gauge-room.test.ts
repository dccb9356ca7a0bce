import { describe, expect, it } from 'vitest';
import { gaugeSpace, startsLow } from '../../../src/screens/shared/gauge-room.ts';

/** Of look.md: the slip takes at most this share of the window. */
const SLIP_SHARE = 0.4;
/** px. Top bars of two to five rows, as their words wrap the more the narrower the window is. Measured on the page. */
const BARS_PX = [98, 118, 137, 157];
/** px. From here on the words never take more than the first two of these. */
const ROOMY_PX = 700;
/** px above the gauge's drawing: its padding in gauge.css. */
const PADDING_PX = 12;

describe.each([null, 98, 137])('the gauge’s room, under a top bar with a slip below it: %s', (topBarPx) => {
  it('is the same on every screen from 800 px up', () => {
    for (const widthPx of [800, 1199, 1200, 2560]) expect(gaugeSpace({ widthPx, heightPx: 900 }, topBarPx)).toEqual(gaugeSpace({ widthPx, heightPx: 900 }, topBarPx === null ? 98 : null));
  });

  it('gives way to the bar’s second row under 1200 px', () => {
    const wide = gaugeSpace({ widthPx: 1200, heightPx: 900 }, topBarPx);
    const middle = gaugeSpace({ widthPx: 1199, heightPx: 900 }, topBarPx);
    expect(wide.heightPx - middle.heightPx).toBe(26);
    expect([wide.narrow, middle.narrow]).toEqual([false, false]);
  });

  it('never falls with a higher window', () => {
    for (const widthPx of [390, 900, 1440]) {
      let before = 0;
      for (let heightPx = 600; heightPx <= 1600; heightPx += 25) {
        const { heightPx: px } = gaugeSpace({ widthPx, heightPx }, topBarPx);
        expect(px).toBeGreaterThanOrEqual(before);
        before = px;
      }
    }
  });
});

it.each([[390, 844], [390, 700], [720, 450], [320, 568]])('at %i × %i the slip leaves the gauge free under a bar of any height', (widthPx, heightPx) => {
  const viewport = { widthPx, heightPx };
  const slip = startsLow(viewport) ? 96 : heightPx * SLIP_SHARE;
  for (const bar of widthPx < ROOMY_PX ? BARS_PX : BARS_PX.slice(0, 2)) expect(bar + PADDING_PX + gaugeSpace(viewport, bar).heightPx).toBeLessThanOrEqual(heightPx - slip);
});

it('starts lowered under 600 px of height only', () => {
  expect([450, 599, 600, 844].map((heightPx) => startsLow({ heightPx }))).toEqual([true, true, false, false]);
});
