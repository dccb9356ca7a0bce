/** Hands a file to the browser to save. */

/** Milliseconds until the file's address may go: browsers start reading it after the click returns. */
const KEPT_MS = 60_000;
const LONGEST_NAME = 120;

export function download(name: string, blob: Blob): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), KEPT_MS);
}

/** The piece's name without what file systems refuse, with an ending. */
export function fileNameOf(pieceName: string, ending: string): string {
  const plain = pieceName.replace(/[\\/:*?"<>|\p{C}]+/gu, ' ').replace(/\s+/g, ' ').replace(/^[. ]+|[. ]+$/g, '').slice(0, LONGEST_NAME);
  return `${plain || 'Piece'}${ending}`;
}
