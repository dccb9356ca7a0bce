/** What lies under a sketch, drawn in mm of the mold: the wall, the plane behind it faintly, this plane's picture and guide. */
import type { ArtPlace } from '../../core/scene/art-place.ts';
import type { Stroke } from '../../core/scene/scene.ts';
import type { Ring } from '../../core/sheet/polygon.ts';
import type { PlacedPicture } from '../../core/sight/colors/picture.ts';
import type { PlaneGuide } from '../../core/sight/guide.ts';
import type { Region } from '../../core/sight/region.ts';
import { colorsCanvas } from '../planes/guide-colors.ts';
import { paintStrokes } from './paint-strokes.ts';

/** A picture as it lies in the mold, seen from above. */
export interface LaidPicture {
  readonly image: CanvasImageSource;
  readonly place: ArtPlace;
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface PlaneLook {
  readonly picture: LaidPicture | null;
  readonly guides: readonly PlaneGuide[];
}

export interface Backdrop extends PlaneLook {
  readonly wall: Ring;
  /** The next plane farther from the viewer; null: none. */
  readonly behind: (PlaneLook & { readonly strokes: readonly Stroke[] }) | null;
}

/** The board is the same by day and by night: paint has its own colors, and the darkest and the lightest must both be seen. */
export const BOARD = { paper: '#c3d3cb', line: '#1c292d', hatch: '#3d5256', mark: '#0b6166' } as const;
/** How much of the plane behind is seen through. */
const FAINT = 0.28;
/** Of a creature's own colors: what is drawn over them is told from them. */
const LIGHT = 0.5;
const LINE_PX = 2;

export function drawBackdrop(pen: CanvasRenderingContext2D, { wall, behind, picture, guides }: Backdrop, pxPerMm: number): void {
  const px = 1 / pxPerMm;
  pen.beginPath();
  wall.forEach(([x, y], i) => (i === 0 ? pen.moveTo(x, y) : pen.lineTo(x, y)));
  pen.closePath();
  pen.fillStyle = BOARD.paper;
  pen.fill();
  pen.save();
  pen.clip();
  if (behind) {
    pen.save();
    pen.globalAlpha = FAINT;
    if (behind.picture) drawPicture(pen, behind.picture);
    for (const { fresh } of behind.guides) outline(pen, fresh, BOARD.line, LINE_PX * px);
    pen.restore();
    drawFaintly(pen, (other) => paintStrokes(other, behind.strokes, pxPerMm));
  }
  if (picture) drawPicture(pen, picture);
  for (const guide of guides) drawGuide(pen, guide, px);
  pen.restore();
  pen.strokeStyle = BOARD.line;
  pen.lineWidth = LINE_PX * px;
  pen.lineJoin = 'round';
  pen.stroke(ringPath(wall));
}

function ringPath(ring: Ring): Path2D {
  const path = new Path2D();
  ring.forEach(([x, y], i) => (i === 0 ? path.moveTo(x, y) : path.lineTo(x, y)));
  path.closePath();
  return path;
}

function drawPicture(pen: CanvasRenderingContext2D, { image, place, widthMm, heightMm }: LaidPicture): void {
  pen.save();
  pen.translate(place.xMm, place.yMm);
  pen.rotate((place.turnDeg * Math.PI) / 180);
  pen.scale(place.mirror ? -1 : 1, -1);
  pen.drawImage(image, -widthMm / 2, -heightMm / 2, widthMm, heightMm);
  pen.restore();
}

/** On a canvas of its own first: strokes that lie over each other would show through each other. */
function drawFaintly(pen: CanvasRenderingContext2D, draw: (pen: CanvasRenderingContext2D) => void): void {
  const layer = document.createElement('canvas');
  [layer.width, layer.height] = [pen.canvas.width, pen.canvas.height];
  const other = layer.getContext('2d');
  if (!other) return;
  other.setTransform(pen.getTransform());
  draw(other);
  pen.save();
  pen.resetTransform();
  pen.globalAlpha = FAINT;
  pen.drawImage(layer, 0, 0);
  pen.restore();
}

/** What is hidden and what fades is toned, what to paint is left clear in a strong line, or lightly in the colors that the creature brings. */
function drawGuide(pen: CanvasRenderingContext2D, { outline: whole, fresh, hidden, feather, colors: brought }: PlaneGuide, px: number): void {
  if (brought) drawColors(pen, brought.picture);
  pen.fillStyle = BOARD.hatch;
  for (const [region, tone] of [[hidden, 0.16], [feather, 0.16]] as const) {
    pen.globalAlpha = tone;
    pen.fill(regionPath(region), 'evenodd');
  }
  pen.globalAlpha = 1;
  outline(pen, whole, BOARD.hatch, px);
  outline(pen, fresh, BOARD.line, LINE_PX * px);
}

function drawColors(pen: CanvasRenderingContext2D, picture: PlacedPicture): void {
  const { leftMm, topMm, width, height, pixelMm } = picture;
  pen.save();
  pen.globalAlpha = LIGHT;
  pen.translate(leftMm, topMm);
  pen.scale(pixelMm, -pixelMm);
  pen.drawImage(colorsCanvas(picture), 0, 0, width, height);
  pen.restore();
}

function outline(pen: CanvasRenderingContext2D, region: Region, ink: string, widthMm: number): void {
  pen.strokeStyle = ink;
  pen.lineWidth = widthMm;
  pen.lineJoin = 'round';
  pen.stroke(regionPath(region));
}

function regionPath(region: Region): Path2D {
  const path = new Path2D();
  for (const loop of region) {
    path.moveTo(loop[0], loop[1]);
    for (let i = 2; i < loop.length; i += 2) path.lineTo(loop[i], loop[i + 1]);
    path.closePath();
  }
  return path;
}
