/** A question over the page: the browser's own dialog, which keeps the focus in and gives it back. */
import { useEffect, useRef, type ReactNode } from 'react';

export function Dialog({ title, onClose, children }: { readonly title: string; readonly onClose: () => void; readonly children: ReactNode }) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const element = dialog.current;
    if (!element || element.open) return;
    element.showModal();
    // Not at the way out: at the first thing there is to say.
    element.querySelector<HTMLElement>('.ask-body > :not(header) :is(input:checked, input:not([type=file], [type=radio]), button)')?.focus();
  }, []);
  return (
    <dialog ref={dialog} className="ask" aria-labelledby="ask-title" onClose={onClose} onKeyDown={(event) => event.stopPropagation()} onClick={(event) => { if (event.target === dialog.current) dialog.current.close(); }}>
      <div className="ask-body">
        <header className="ask-head">
          <h2 id="ask-title">{title}</h2>
          <button type="button" className="link" onClick={() => dialog.current?.close()}>Close</button>
        </header>
        {children}
      </div>
    </dialog>
  );
}
