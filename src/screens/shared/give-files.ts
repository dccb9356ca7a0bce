/** From what a person dropped or picked to the bytes of a scene's files. */
import { grouped } from '../../files/fail.ts';
import { MAX_BUNDLE_BYTES, MAX_ZIP_ENTRIES } from '../../files/limits.ts';
import type { SceneState } from '../../store/scene-store.ts';
import type { GivenFile } from '../../work/protocol.ts';

/** Opens the files as one scene; the scene's own name speaks for all of them. */
export function openGiven(files: readonly File[], openFiles: SceneState['openFiles']): void {
  if (files.length === 0) return;
  const scene = files.find(({ name }) => /\.(stillpool|json)$/i.test(name)) ?? files[0];
  void openFiles(scene.name, () => bytesOf(files));
}

async function bytesOf(files: readonly File[]): Promise<GivenFile[]> {
  const total = files.reduce((sum, { size }) => sum + size, 0);
  if (files.length > MAX_ZIP_ENTRIES) throw new Error(`${grouped(files.length)} files, at most ${grouped(MAX_ZIP_ENTRIES)}`);
  if (total > MAX_BUNDLE_BYTES) throw new Error(`${grouped(total)} bytes, at most ${grouped(MAX_BUNDLE_BYTES)}`);
  return Promise.all(files.map(async (file) => ({ path: file.webkitRelativePath || file.name, bytes: new Uint8Array(await file.arrayBuffer()) })));
}
