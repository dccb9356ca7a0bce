/**
 * The grips by which the mold itself is sized: a bar on the end wall, on the side wall and on the rim, each dragged along
 * its own line. They stand on walls that are drawn, and only where their line is seen long enough to be dragged along.
 */

import type { Mold } from '../core/scene/scene.ts';
import { basisOf, mmPerPx, positionOf, seenAt, type Eye, type Frame, type Vec3 } from './eye.ts';
import type { Point } from './marks.ts';
import type { MoldSize } from './props.ts';
import { rayOnLine, type Ray } from './ray.ts';

export interface MoldGrip {
  readonly size: MoldSize;
  /** Where it stands, and the direction (of length 1) in which the size grows. Mold frame, mm. */
  readonly at: Vec3;
  readonly along: Vec3;
  /** mm of the size for a mm along the line: 2 where the mold grows to both sides of its middle. */
  readonly perMm: number;
  readonly sizeMm: number;
}

export interface GripMark {
  readonly size: MoldSize;
  readonly at: Point;
  /** The bar lies across the line that it is dragged along. */
  readonly bar: readonly [Point, Point];
  readonly line: readonly [Point, Point];
  readonly words: string;
  readonly wordsAt: Point;
  readonly wordsLeft: boolean;
}

/** A line seen at less than this (sine of its angle to the sight) is too short to drag along: 1 px would be 4 of mold. */
export const GRIP_SINE = 0.25;
/** How far round from the edge of what is seen a round mold's grips stand, radians: on the wall that is drawn. */
const ROUND_TURN = Math.PI / 6;
/** Half of a bar and of the line through it, px. */
const BAR_PX = 13;
const LINE_PX = 17;
const WORDS_AWAY_PX = 16;
/** In a picture narrower than this the words of three grips would lie over each other: only those of the one in hand are there. */
const ROOM_FOR_ALL_PX = 520;
/** And as much when a low picture is taken as this times its height: the mold fills it. */
const LEAST_SHAPE = 1.6;
/** Bars are this much shorter there. */
const SHORT = 0.7;
/** Room for a grip's words. */
const WORDS_PX = 110;

/** For an eye there, the grips that can be dragged. */
export function moldGrips(mold: Mold, eye: Eye): MoldGrip[] {
  const all = mold.shape === 'round' ? roundGrips(mold, eye) : boxGrips(mold, eye);
  const from = positionOf(eye);
  return all.filter(({ at, along }) => sineTo(along, [at[0] - from[0], at[1] - from[1], at[2] - from[2]]) >= GRIP_SINE);
}

/** The size for each new sight, mm and never under 0, or null where the sight tells nothing. */
export function beginGrip({ at, along, perMm, sizeMm }: MoldGrip, ray: Ray): (now: Ray) => number | null {
  const from = rayOnLine(ray, at, along, GRIP_SINE / 2);
  return (now) => {
    const to = rayOnLine(now, at, along, GRIP_SINE / 2);
    return from === null || to === null ? null : Math.max(0, sizeMm + perMm * (to - from));
  };
}

/** `words` is what stands beside each, `held` the one in hand. px of the picture. */
export function gripMarks(grips: readonly MoldGrip[], { words, held }: { words: (size: MoldSize, mm: number) => string; held: string | null }, eye: Eye, frame: Frame): GripMark[] {
  const px = mmPerPx(eye, frame);
  const roomy = Math.min(frame.width, frame.height * LEAST_SHAPE) >= ROOM_FOR_ALL_PX;
  const [bar, line] = [BAR_PX, LINE_PX].map((long) => (roomy ? 1 : SHORT) * long);
  return grips.map(({ size, at, along, sizeMm }) => {
    const seen = (by: number): Point => {
      const { x, y } = seenAt(eye, [at[0] + by * along[0], at[1] + by * along[1], at[2] + by * along[2]], frame);
      return [x, y];
    };
    const [middle, on] = [seen(0), seen(px)];
    const length = Math.hypot(on[0] - middle[0], on[1] - middle[1]);
    const [dx, dy] = [(on[0] - middle[0]) / length, (on[1] - middle[1]) / length];
    const apart = (a: number, b: number): Point => [middle[0] + a * dx - b * dy, middle[1] + a * dy + b * dx];
    const wordsLeft = middle[0] > frame.width - WORDS_PX;
    return {
      size, at: middle, words: roomy || held === size ? words(size, sizeMm) : '', wordsLeft,
      bar: [apart(0, -bar), apart(0, bar)],
      line: [apart(-line, 0), apart(line, 0)],
      wordsAt: [middle[0] + (wordsLeft ? -1 : 1) * (WORDS_AWAY_PX + 2), middle[1] - 10],
    };
  });
}

/** Walls that the eye looks at from inside are drawn; of two, the left and the back one, away from the pour numbers. */
function boxGrips(mold: Mold & { shape: 'box' }, eye: Eye): MoldGrip[] {
  const { heightMm, lengthMm, widthMm } = mold;
  const lean = Math.tan((mold.draftDeg * Math.PI) / 180);
  const [hx, hy, mid] = [lengthMm / 2, widthMm / 2, heightMm / 2];
  const [ex, ey] = positionOf(eye);
  const sx = ex < -hx ? 1 : -1;
  const sy = ey > hy ? -1 : 1;
  return [
    { size: 'lengthMm', at: [sx * (hx + lean * mid), 0, mid], along: [sx, 0, 0], perMm: 2, sizeMm: lengthMm },
    { size: 'widthMm', at: [0, sy * (hy + lean * mid), mid], along: [0, sy, 0], perMm: 2, sizeMm: widthMm },
    { size: 'heightMm', at: [-sx * (hx / 2), sy * (hy + lean * heightMm), heightMm], along: [0, 0, 1], perMm: 1, sizeMm: heightMm },
  ];
}

function roundGrips(mold: Mold & { shape: 'round' }, eye: Eye): MoldGrip[] {
  const { heightMm, diameterMm } = mold;
  const lean = Math.tan((mold.draftDeg * Math.PI) / 180);
  const { right } = basisOf(eye.azimuth, 0);
  const [c, s] = [Math.cos(ROUND_TURN), Math.sin(ROUND_TURN)];
  const away: Vec3 = [-Math.cos(eye.azimuth), -Math.sin(eye.azimuth), 0];
  const left: Vec3 = [-c * right[0] + s * away[0], -c * right[1] + s * away[1], 0];
  const back: Vec3 = [s * right[0] + c * away[0], s * right[1] + c * away[1], 0];
  const [atMid, atRim] = [diameterMm / 2 + (lean * heightMm) / 2, diameterMm / 2 + lean * heightMm];
  return [
    { size: 'diameterMm', at: [atMid * left[0], atMid * left[1], heightMm / 2], along: left, perMm: 2, sizeMm: diameterMm },
    { size: 'heightMm', at: [atRim * back[0], atRim * back[1], heightMm], along: [0, 0, 1], perMm: 1, sizeMm: heightMm },
  ];
}

function sineTo(along: Vec3, sight: Vec3): number {
  const far = Math.hypot(...sight);
  const together = (along[0] * sight[0] + along[1] * sight[1] + along[2] * sight[2]) / far;
  return Math.sqrt(Math.max(0, 1 - together * together));
}
