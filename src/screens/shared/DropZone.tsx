/** Takes files and folders dropped anywhere on the page. */
import { useEffect, useRef, useState, type ReactNode } from 'react';
import { droppedFiles } from '../files/gathered.ts';
import { useTaking } from '../files/taking.ts';

export function DropZone({ children }: { readonly children: ReactNode }) {
  const taking = useTaking();
  const take = useRef(taking);
  useEffect(() => {
    take.current = taking;
  });
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
      setOver(false);
      // Something nearer has taken it: a plane its picture.
      if (event.defaultPrevented || !holdsFiles(event)) return;
      event.preventDefault();
      take.current(droppedFiles(event.dataTransfer));
    };
    addEventListener('dragover', onOver);
    addEventListener('dragleave', onLeave);
    addEventListener('drop', onDrop);
    return () => {
      removeEventListener('dragover', onOver);
      removeEventListener('dragleave', onLeave);
      removeEventListener('drop', onDrop);
    };
  }, []);
  return (
    <>
      {children}
      {over && <div className="drop-over" aria-hidden="true"><p>Let go to open the scene. Drop its meshes with it.</p></div>}
    </>
  );
}
