/** Hands a file to the browser to save. */

/** Milliseconds until the file's address may go: browsers start reading it after the click returns. */
const KEPT_MS = 60_000;

export function saveFile(name: string, bytes: Uint8Array, type: string): void {
  const url = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>], { type }));
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), KEPT_MS);
}

/** The scene's name without what file systems refuse. */
export function sheetFileName(sceneName: string): string {
  const plain = sceneName.replace(/[\\/:*?"<>|\p{C}]+/gu, ' ').replace(/\s+/g, ' ').replace(/^[. ]+|[. ]+$/g, '').slice(0, 120);
  return `${plain || 'Build sheet'}.pdf`;
}
