/** Opens the browser's file picker for a scene, alone or with its meshes. */
import { useRef } from 'react';
import { openGiven } from './give-files.ts';
import { useScene } from './store.ts';

const ACCEPTED = '.json,.stillpool,.stl,.obj,.ply,.glb,.gltf,.3mf,.svg,.png,.jpg,.jpeg,.webp';

export function OpenButton() {
  const openFiles = useScene((state) => state.openFiles);
  const picker = useRef<HTMLInputElement>(null);
  return (
    <>
      <button type="button" className="button" onClick={() => picker.current?.click()}>Open a scene</button>
      <input
        ref={picker}
        type="file"
        multiple
        hidden
        accept={ACCEPTED}
        aria-label="Scene file, with the meshes it uses"
        onChange={({ target }) => {
          openGiven([...(target.files ?? [])], openFiles);
          // Picking the same file again must count as a change.
          target.value = '';
        }}
      />
    </>
  );
}
