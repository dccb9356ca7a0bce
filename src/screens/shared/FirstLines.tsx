/** Words of which only the first four lines are seen until `more` is pressed. A screen reader has them all. */
import { useEffect, useRef, useState, type CSSProperties, type ReactNode } from 'react';

const LINES = 4;
/** Rounding of line heights, px. */
const ROUNDING_PX = 1;

/** Give it the words' `key`, so that other words start short. */
export function FirstLines({ children }: { readonly children: ReactNode }) {
  const words = useRef<HTMLDivElement>(null);
  const [open, setOpen] = useState(false);
  const [longer, setLonger] = useState(false);
  useEffect(() => {
    const element = words.current;
    if (!element || open) return;
    const watch = new ResizeObserver(() => setLonger(element.scrollHeight > element.clientHeight + ROUNDING_PX));
    watch.observe(element);
    return () => watch.disconnect();
  }, [open]);
  return (
    <>
      <div ref={words} className={open ? 'first-lines' : 'first-lines clamped'} style={{ '--lines': LINES } as CSSProperties}>{children}</div>
      {longer && <button type="button" className="link" aria-expanded={open} onClick={() => setOpen(!open)}>{open ? 'less' : 'more'}<span className="hidden"> of this finding</span></button>}
    </>
  );
}
