/** Saving what the page makes as a file: where the browser has a dialog for it, there; else as a download. */
import { messageOf } from '../../files/fail.ts';
import { usePieceStore } from '../shared/piece.ts';
import { download, fileNameOf } from './download.ts';

type Kind = 'bundle' | 'scene' | 'model' | 'picture';

interface Saved {
  readonly ending: string;
  readonly type: string;
  readonly words: string;
}

const KINDS: Readonly<Record<Kind, Saved>> = {
  bundle: { ending: '.stillpool', type: 'application/zip', words: 'Stillpool piece' },
  scene: { ending: '.scene.json', type: 'application/json', words: 'Stillpool scene' },
  model: { ending: '.glb', type: 'model/gltf-binary', words: '3D model' },
  picture: { ending: '.png', type: 'image/png', words: 'Picture' },
};

interface FileHandle {
  readonly name: string;
  createWritable(): Promise<{ write(data: Blob): Promise<void>; close(): Promise<void> }>;
}

type Picker = (options: { suggestedName: string; types: { description: string; accept: Record<string, string[]> }[] }) => Promise<FileHandle>;

/** Saves the piece, or the view of it. True: it is on the disk; what went wrong is told. */
export function useSaving(): (kind: Kind) => Promise<boolean> {
  const store = usePieceStore();
  return async (kind) => {
    const { document, packed, tellTrouble } = store.getState();
    const name = fileNameOf(document?.name ?? '', KINDS[kind].ending);
    if ((kind === 'model' || kind === 'picture') && !window.document.querySelector('canvas')) {
      tellTrouble(`${name} can’t be saved`, 'The mold is not drawn now. Open Compose or Pours, then try again.');
      return false;
    }
    try {
      // The picker first: it only opens right after a press.
      const handle = await pickedHandle(name, KINDS[kind]);
      if (handle === 'stopped') return false;
      const { blob, done } = kind === 'bundle' || kind === 'scene' ? await packed(kind) : { blob: await viewed(kind), done: undefined };
      if (handle === null) download(name, blob);
      else {
        const writable = await handle.createWritable();
        await writable.write(blob);
        await writable.close();
      }
      done?.(handle?.name ?? name);
      return true;
    } catch (error) {
      tellTrouble(`${name} can’t be saved`, messageOf(error));
      return false;
    }
  };
}

async function viewed(kind: 'model' | 'picture'): Promise<Blob> {
  const { viewModel, viewPicture } = await import('../../view/view-files.ts');
  return kind === 'model' ? viewModel() : viewPicture();
}

/** null: this browser only downloads. */
async function pickedHandle(name: string, { ending, type, words }: Saved): Promise<FileHandle | 'stopped' | null> {
  const picker = (window as { showSaveFilePicker?: Picker }).showSaveFilePicker;
  if (!picker) return null;
  try {
    // An ending of two parts is more than the dialog takes.
    return await picker({ suggestedName: name, types: [{ description: words, accept: { [type]: [ending.slice(ending.lastIndexOf('.'))] } }] });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') return 'stopped';
    return null;
  }
}
