/** What the mold view is given and what it tells. Lengths mm in the mold's frame: x along, y across, z up from the floor. */

import type { Scene } from '../core/scene/scene.ts';

/** The middle of a thing's bounds, its lowest point, its turn about z. */
export interface Place {
  readonly xMm: number;
  readonly yMm: number;
  readonly baseMm: number;
  readonly turnZDeg: number;
}

/** Ready to draw: posed as the scene says, or posed anywhere with the same turn; the view moves it to its place. */
export interface ViewSolid {
  readonly id: string;
  readonly kind: 'figure' | 'bed';
  readonly name: string;
  /** x, y, z per point. The view never writes to it; a new array means a new form. */
  readonly positions: Float32Array;
  /** Three point numbers per triangle, counter-clockwise seen from outside. */
  readonly indices: Uint32Array;
  /** The turn about z these positions have. Left out: the placement's turn when the array first came. */
  readonly turnZDeg?: number;
}

export interface ViewPicture {
  /** A blob address; the picture's own transparency counts. */
  readonly url: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Its middle. */
  readonly xMm: number;
  readonly yMm: number;
}

/** Placed as the scene says it, for the viewer; in a face-down casting the view mirrors picture and turn itself. */
export interface ViewArt extends ViewPicture {
  readonly turnDeg: number;
  readonly mirror: boolean;
}

/** What was sketched on a plane by hand, where it lies in the mold as one looks down into it. */
export type ViewSketch = ViewPicture;

/** What to paint of a creature on a plane, where it lies in the mold as one looks down into it. Until it is drawn anew it goes with the creature. */
export interface ViewGuide extends ViewPicture {
  readonly creature: string;
  /** Where the creature was when it was drawn. */
  readonly drawnAt: Place;
}

export interface ViewPlane {
  readonly id: string;
  readonly name: string;
  readonly atMm: number;
  readonly art?: ViewArt;
  readonly sketch?: ViewSketch;
  /** A new array means new guides. */
  readonly guides?: readonly ViewGuide[];
}

/** Level outlines, x and y in turn, the last point joined to the first. */
export interface ViewContour {
  readonly atMm: number;
  readonly loops: readonly ArrayLike<number>[];
}

/** A creature that is painted on planes: it stands nowhere, its form is to be imagined in thin lines. Its place is the scene's. */
export interface ViewCreature {
  readonly id: string;
  /** From the lowest up; a new array means a new form. */
  readonly contours: readonly ViewContour[];
  /** Where it was when they were drawn. */
  readonly drawnAt: Place;
}

export interface ViewPour {
  readonly index: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** `#rrggbb`. */
  readonly tint?: string;
  readonly halted?: boolean;
}

/** The tokens of the page's paper, `#rrggbb`. */
export interface ViewColors {
  readonly ground: string;
  readonly sheet: string;
  readonly ink: string;
  readonly ink2: string;
  readonly rule: string;
  readonly teal: string;
  readonly onteal: string;
  readonly brick: string;
  readonly brickwash: string;
  readonly water: string;
  readonly silt: string;
  readonly hatch: string;
}

/** `below`: through the floor, which is left out, at the show face of a face-down casting. */
export type SeenFrom = 'corner' | 'front' | 'end' | 'above' | 'below';

/** A solid's or a creature's place: center of its bounds, its lowest point, its turn about z. Of a plane: its art's, and its height. */
export interface ViewChange {
  readonly id: string;
  readonly xMm?: number;
  readonly yMm?: number;
  readonly baseMm?: number;
  readonly turnZDeg?: number;
}

export type DragPhase = 'move' | 'end' | 'cancel';

export type MoldSize = 'lengthMm' | 'widthMm' | 'diameterMm' | 'heightMm';

/** How the mold itself is sized by hand. */
export interface MoldSizing {
  /** What stands beside a grip: `210 mm long`. */
  words(size: MoldSize, mm: number): string;
  /** `cancel` carries the size from before the drag. */
  onDrag(size: MoldSize, mm: number, phase: DragPhase): void;
}

export interface MoldViewProps {
  readonly scene: Scene;
  readonly solids: readonly ViewSolid[];
  readonly planes: readonly ViewPlane[];
  readonly pours: readonly ViewPour[];
  /** Those of the scene whose form is known. */
  readonly creatures?: readonly ViewCreature[];
  /** The mold filled to the top of this pour; 0: empty; left out: the whole piece. */
  readonly poured?: number;
  /** The last one carries the handles. */
  readonly selected: readonly string[];
  readonly locked: readonly string[];
  /** A change moves the eye there; so does a double press on the ground. */
  readonly seenFrom: SeenFrom;
  onSelect(ids: readonly string[], how: 'replace' | 'toggle'): void;
  /** `cancel` carries the values from before the drag. */
  onDrag(change: ViewChange, phase: DragPhase): void;
  /** Height of what the solid would stand on with its center there. Asked while its body is dragged and stands on it. */
  supportHeightAt?(id: string, xMm: number, yMm: number): number;
  /** What stands beside the float: `20 up, 35 deep`. Left out: in mm. */
  heightWords?(upMm: number, deepMm: number): string;
  /** Grips on the mold while nothing is selected; left out: none. */
  readonly sizing?: MoldSizing;
  readonly colors: ViewColors;
  readonly reducedMotion: boolean;
  /** Something of the scene is dragged, here or elsewhere: until it is let go, the picture keeps its size and may be drawn lighter. */
  readonly inHand?: boolean;
  onContextLost?(lost: boolean): void;
  /** The person turned the piece by hand: no word says where it is seen from now. */
  onTurned?(): void;
}
