/** Chooses a pour and brings its row into view. */

export const pourRowId = (pour: number): string => `pour-${pour}`;

/** null: none is chosen, the piece is whole. */
export function choosePourAndShow(pour: number | null, choosePour: (pour: number | null) => void): void {
  choosePour(pour);
  if (pour !== null) document.getElementById(pourRowId(pour))?.scrollIntoView({ block: 'nearest' });
}
