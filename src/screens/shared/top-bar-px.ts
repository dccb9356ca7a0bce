/** How high the top bar is: at phone width its words take more lines the more there is to say. */
import { useLayoutEffect, useState } from 'react';

/** Until it is measured: three rows at phone width, px. */
const FIRST_PX = 118;

export function useTopBarPx(): number {
  const [px, setPx] = useState(FIRST_PX);
  useLayoutEffect(() => {
    const bar = document.querySelector<HTMLElement>('.top-bar');
    if (!bar) return;
    const watch = new ResizeObserver(() => setPx(bar.offsetHeight));
    watch.observe(bar);
    return () => watch.disconnect();
  }, []);
  return px;
}
