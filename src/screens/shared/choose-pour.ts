/** Chooses a pour and brings its row into view. */

export const pourRowId = (pour: number): string => `pour-${pour}`;

export function choosePourAndShow(pour: number, choosePour: (pour: number) => void): void {
  choosePour(pour);
  document.getElementById(pourRowId(pour))?.scrollIntoView({ block: 'nearest' });
}
