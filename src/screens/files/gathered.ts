/** From what a person dropped or picked to the files of a scene, folders and all. */
import { grouped } from '../../files/fail.ts';
import { MAX_BUNDLE_BYTES, MAX_ZIP_ENTRIES } from '../../files/limits.ts';
import type { GivenBlob } from '../../store/piece-state.ts';

/** Folders inside each other. */
const MAX_DEPTH = 20;

export interface Given {
  /** What to call it: the scene's name, else the folder's or the first file's. */
  readonly name: string;
  readonly files: () => Promise<readonly GivenBlob[]>;
}

/** Picked files, or those of a picked folder. null: none. */
export function pickedFiles(files: readonly File[]): Given | null {
  if (files.length === 0) return null;
  const given = files.map((file) => ({ path: file.webkitRelativePath || file.name, blob: file }));
  return { name: nameAmong(given.map(({ path }) => path)), files: async () => checked(given) };
}

/** Dropped files and folders. To be called while the drop is handled: after that the browser forgets its folders. */
export function droppedFiles(transfer: DataTransfer | null): Given | null {
  const entries = [...(transfer?.items ?? [])].flatMap((item) => (item.kind === 'file' ? [item.webkitGetAsEntry?.() ?? null] : []));
  const folders = entries.filter((entry) => entry?.isDirectory);
  if (folders.length === 0) return pickedFiles([...(transfer?.files ?? [])]);
  return {
    name: folders[0]!.name,
    async files() {
      const found: GivenBlob[] = [];
      for (const entry of entries) if (entry) await gather(entry, '', 0, found);
      return checked(found);
    },
  };
}

async function gather(entry: FileSystemEntry, folder: string, depth: number, found: GivenBlob[]): Promise<void> {
  // Such as .DS_Store: never a person's.
  if (entry.name.startsWith('.')) return;
  const path = folder + entry.name;
  if (entry.isFile) {
    if (found.length >= MAX_ZIP_ENTRIES) throw new Error(`over ${grouped(MAX_ZIP_ENTRIES)} files; drop the folder that holds only the scene`);
    const file = await new Promise<File>((resolve, reject) => (entry as FileSystemFileEntry).file(resolve, reject));
    found.push({ path, blob: file });
    return;
  }
  if (depth >= MAX_DEPTH) throw new Error(`folders inside each other, over ${MAX_DEPTH} deep; drop the folder that holds the scene`);
  const reader = (entry as FileSystemDirectoryEntry).createReader();
  for (;;) {
    // Some browsers give a hundred at a time.
    const some = await new Promise<FileSystemEntry[]>((resolve, reject) => reader.readEntries(resolve, reject));
    if (some.length === 0) return;
    for (const inner of some) await gather(inner, `${path}/`, depth + 1, found);
  }
}

function checked(files: readonly GivenBlob[]): readonly GivenBlob[] {
  const total = files.reduce((sum, { blob }) => sum + blob.size, 0);
  if (files.length > MAX_ZIP_ENTRIES) throw new Error(`${grouped(files.length)} files, at most ${grouped(MAX_ZIP_ENTRIES)}`);
  if (total > MAX_BUNDLE_BYTES) throw new Error(`${grouped(total)} bytes, at most ${grouped(MAX_BUNDLE_BYTES)}`);
  return files;
}

function nameAmong(paths: readonly string[]): string {
  const path = paths.find((one) => /\.stillpool$/i.test(one)) ?? paths.find((one) => /\.scene\.json$/i.test(one)) ?? paths.find((one) => /\.json$/i.test(one)) ?? paths[0];
  return path.slice(path.lastIndexOf('/') + 1);
}
