/** Where pieces come from and go to: this piece as a file, another file, the demos, what was worked on before. */
import { useEffect, useRef, useState, type ReactNode } from 'react';
import type { DemoName, SnapshotAt } from '../../store/piece-state.ts';
import { Dialog } from '../compose/Dialog.tsx';
import { useComposeUi } from '../compose/ui.ts';
import { usePiece } from '../shared/piece.ts';
import { pickedFiles } from './gathered.ts';
import { keptWords, whenWords } from './kept-words.ts';
import { useSaving } from './saving.ts';
import { useTaking } from './taking.ts';
import './files.css';

const ACCEPTED = '.json,.stillpool,.zip,.stl,.obj,.ply,.glb,.gltf,.3mf,.svg,.png,.jpg,.jpeg,.webp';
const DEMOS: readonly { readonly name: DemoName; readonly title: string }[] = [
  { name: 'mill-pond', title: 'Mill pond, evening' },
  { name: 'rock-pool', title: 'Rock pool' },
];

export function FilesDialog({ onClose }: { readonly onClose: () => void }) {
  const refresh = usePiece((state) => state.refreshRecents);
  useEffect(() => {
    void refresh();
  }, [refresh]);
  return (
    <Dialog title="Files" onClose={onClose}>
      <div className="files">
        <ThisPiece />
        <Opening onClose={onClose} />
        <Recents onClose={onClose} />
      </div>
    </Dialog>
  );
}

function ThisPiece() {
  const name = usePiece((state) => state.document?.name);
  const open = usePiece((state) => state.document !== null);
  const kept = usePiece((state) => state.kept);
  const save = useSaving();
  const [saved, setSaved] = useState('');
  if (!open) return null;
  const saving = (kind: Parameters<typeof save>[0], words: string) => async () => {
    setSaved('');
    if (await save(kind)) setSaved(words);
  };
  return (
    <Part title="This piece">
      <p><i>{name || 'A piece without a name'}</i> <span className="soft">· {keptWords(kept)}</span></p>
      <p className="buttons">
        <button type="button" className="button main" onClick={() => void saving('bundle', 'Saved, with its meshes and pictures.')()}>Save the piece</button>
        <button type="button" className="button" onClick={() => void saving('scene', 'Saved. Its meshes and pictures are not in that file; keep them beside it.')()}>Save the scene alone</button>
        <button type="button" className="button" onClick={() => void saving('picture', 'Picture saved.')()}>Save a picture</button>
        <button type="button" className="button" onClick={() => void saving('model', '3D model saved.')()}>Save a 3D model</button>
      </p>
      <p role="status" className="soft">{saved}</p>
      <EarlierStates />
    </Part>
  );
}

function EarlierStates() {
  const snapshots = usePiece((state) => state.snapshots);
  const restore = usePiece((state) => state.restore);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const [found, setFound] = useState<readonly SnapshotAt[] | null>(null);
  const [now] = useState(() => Date.now());
  return (
    <details onToggle={() => void snapshots().then(setFound)}>
      <summary>Earlier states</summary>
      {found?.length === 0 && <p className="soft">None yet. One is kept every ten minutes of work.</p>}
      <ul className="recents">
        {[...(found ?? [])].reverse().map((snapshot) => (
          <li key={snapshot.at}>
            <span>{whenWords(snapshot.at, now)}</span>
            <button type="button" className="button" aria-disabled={readOnly} onClick={() => void restore(snapshot)}>Go back to it<span className="hidden"> as it was at {whenWords(snapshot.at, now)}</span></button>
          </li>
        ))}
      </ul>
    </details>
  );
}

function Opening({ onClose }: { readonly onClose: () => void }) {
  const taking = useTaking();
  const openDemo = usePiece((state) => state.openDemo);
  const ask = useComposeUi((ui) => ui.ask);
  const picker = useRef<HTMLInputElement>(null);
  const folder = useRef<HTMLInputElement>(null);
  const take = (input: HTMLInputElement): void => {
    const given = pickedFiles([...(input.files ?? [])]);
    // Picking the same file again must count as a change.
    input.value = '';
    if (!given) return;
    onClose();
    taking(given);
  };
  return (
    <Part title="Another piece">
      <p className="buttons">
        <button type="button" className="button" onClick={() => { onClose(); location.hash = 'compose'; ask('new piece'); }}>Start a new piece</button>
        <button type="button" className="button" onClick={() => picker.current?.click()}>Open a file</button>
        <button type="button" className="button" onClick={() => folder.current?.click()}>Open a folder</button>
      </p>
      <p className="soft">Or drop them anywhere on the page: a scene with its meshes and pictures, a whole folder, a mesh or a picture to set into this piece.</p>
      <input ref={picker} type="file" multiple hidden accept={ACCEPTED} aria-label="Scene file, with the meshes it uses" onChange={({ target }) => take(target)} />
      <input ref={(input) => { folder.current = input; input?.setAttribute('webkitdirectory', ''); }} type="file" hidden aria-label="Folder of a scene" onChange={({ target }) => take(target)} />
      <p className="buttons">
        <span className="soft">To look around:</span>
        {DEMOS.map(({ name, title }) => (
          <button key={name} type="button" className="button" onClick={() => { onClose(); void openDemo(name); }}><i>{title}</i></button>
        ))}
      </p>
    </Part>
  );
}

function Recents({ onClose }: { readonly onClose: () => void }) {
  const recents = usePiece((state) => state.recents);
  const openRecent = usePiece((state) => state.openRecent);
  const forget = usePiece((state) => state.forgetRecent);
  const remember = usePiece((state) => state.rememberRecent);
  const [forgotten, setForgotten] = useState<{ readonly id: string; readonly name: string } | null>(null);
  const [now] = useState(() => Date.now());
  return (
    <Part title="Worked on before">
      {recents.length === 0 && <p className="soft">Nothing yet. A piece is kept in this browser from its first change on.</p>}
      {forgotten && (
        <p role="status"><i>{forgotten.name}</i> is forgotten. <button type="button" className="button" onClick={() => { void remember(forgotten.id); setForgotten(null); }}>Bring it back</button></p>
      )}
      <ul className="recents">
        {recents.map(({ id, name, changedAt, fileName, open }) => (
          <li key={id}>
            <span><i>{name || 'A piece without a name'}</i> <span className="soft">· changed {whenWords(changedAt, now)}{fileName && `, in ${fileName}`}</span></span>
            {open ? <span className="soft">open here</span> : (
              <span className="buttons">
                <button type="button" className="button" onClick={() => { onClose(); void openRecent(id); }}>Open<span className="hidden"> {name}</span></button>
                <button type="button" className="button" onClick={() => { setForgotten({ id, name }); void forget(id); }}>Forget<span className="hidden"> {name}</span></button>
              </span>
            )}
          </li>
        ))}
      </ul>
    </Part>
  );
}

function Part({ title, children }: { readonly title: string; readonly children: ReactNode }) {
  return (
    <section className="files-part" aria-label={title}>
      <h3>{title}</h3>
      {children}
    </section>
  );
}
