/** Pictures of pixels as plain values: what decoders give, what colored guides are made of. */

/** A mesh's own picture, its alpha left out: paint covers. */
export interface Picture {
  readonly width: number;
  readonly height: number;
  /** Red, green, blue from 0 to 255 as files write them (sRGB), row by row from the top left. */
  readonly rgb: Uint8Array;
}

/** Square pixels that lie in the mold, looking down into it: across is x, up is y. */
export interface Grid {
  /** Side of a pixel. */
  readonly pixelMm: number;
  /** Of its top left corner. */
  readonly leftMm: number;
  readonly topMm: number;
  readonly width: number;
  readonly height: number;
}

export interface PlacedPicture extends Grid {
  /** sRGB and alpha, 0 or 255, row by row from the top. */
  readonly rgba: Uint8ClampedArray<ArrayBuffer>;
}
