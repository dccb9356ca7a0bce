/** How wide the gauge's column is and how high the gauge may be in a window: the same on every screen. */
import { NARROW_PX, WIDE_PX, type Viewport } from './viewport.ts';

const COLUMN_PX = { wide: 420, middle: 340, narrow: 108 } as const;
/** px of the window that the gauge does not take: the top bar, of two rows under 1200 px, and the space around it. */
const AROUND_PX = { wide: 98, middle: 124, narrow: 212 } as const;
/** Around the gauge between the top bar and a slip, which are counted apart, with half of the clip at the floor, px. */
const BETWEEN_PX = 36;
const LEAST_PX = { wide: 480, middle: 480, narrow: 320 } as const;
/** Over a slip the gauge may be lower rather than lie under it, px. */
const LEAST_OVER_SLIP_PX = 200;
const MOST_PX = { wide: 980, middle: 980, narrow: 620 } as const;

/** The raised slip's share of the window, and its height when it is lowered, px. compose.css has the same. */
const SLIP_SHARE = 0.4;
const LOW_SLIP_PX = 96;
/** In a window lower than this the slip is lowered at first, px: raised it would leave the gauge less than its own height. */
const SHORT_PX = 600;

export interface GaugeSpace {
  /** Phone width: figures are bars, and the card is a slip at the bottom. */
  readonly narrow: boolean;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** `topBarPx`: how high the bar is over a gauge that shares a phone's window with a slip; null where there is no slip. */
export function gaugeSpace(viewport: Viewport, topBarPx: number | null): GaugeSpace {
  const size = viewport.widthPx >= WIDE_PX ? 'wide' : viewport.widthPx >= NARROW_PX ? 'middle' : 'narrow';
  const narrow = size === 'narrow';
  const slips = narrow && topBarPx !== null;
  const free = viewport.heightPx - (slips ? topBarPx + BETWEEN_PX + slipPx(viewport) : AROUND_PX[size]);
  const least = slips ? LEAST_OVER_SLIP_PX : LEAST_PX[size];
  return { narrow, widthPx: COLUMN_PX[size], heightPx: Math.min(MOST_PX[size], Math.max(least, free)) };
}

/** Whether the slip starts lowered. */
export function startsLow({ heightPx }: Pick<Viewport, 'heightPx'>): boolean {
  return heightPx < SHORT_PX;
}

function slipPx(viewport: Viewport): number {
  return startsLow(viewport) ? LOW_SLIP_PX : viewport.heightPx * SLIP_SHARE;
}
