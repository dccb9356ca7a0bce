/** Takes files dropped anywhere on the page. */
import { useEffect, useState, type ReactNode } from 'react';
import { openGiven } from './give-files.ts';
import { useScene } from './store.ts';

export function DropZone({ children }: { readonly children: ReactNode }) {
  const openFiles = useScene((state) => state.openFiles);
  const [over, setOver] = useState(false);
  useEffect(() => {
    // A drag enters and leaves every element it crosses; only the way out of the window has no target to go to.
    const holdsFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;
    const onOver = (event: DragEvent) => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const onLeave = (event: DragEvent) => {
      if (event.relatedTarget === null) setOver(false);
    };
    const onDrop = (event: DragEvent) => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      setOver(false);
      openGiven([...(event.dataTransfer?.files ?? [])], openFiles);
    };
    addEventListener('dragover', onOver);
    addEventListener('dragleave', onLeave);
    addEventListener('drop', onDrop);
    return () => {
      removeEventListener('dragover', onOver);
      removeEventListener('dragleave', onLeave);
      removeEventListener('drop', onDrop);
    };
  }, [openFiles]);
  return (
    <>
      {children}
      {over && <div className="drop-over" aria-hidden="true"><p>Let go to open the scene. Drop its meshes with it.</p></div>}
    </>
  );
}
