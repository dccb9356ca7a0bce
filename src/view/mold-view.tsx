/**
 * The mold view: the piece as a drawn box on the page's own paper, to look into and to compose in.
 * The picture hangs on the page's ground (its canvas is clear), marks and handles lie over it as drawing.
 */

import { createRoot, extend, type ReconcilerRoot } from '@react-three/fiber';
import { useEffect, useLayoutEffect, useRef, useState, type FC, type ReactNode } from 'react';
import { Group, PerspectiveCamera, WebGLRenderer } from 'three';
import { setCurrentView } from './current-view.ts';
import { Hand } from './hand.ts';
import { Pace } from './pace.ts';
import type { MoldViewProps } from './props.ts';
import { drawsInSoftware } from './software.ts';
import { Stage } from './stage.ts';
import { StageParts } from './stage-parts.tsx';

extend({ Group });

type Root = ReconcilerRoot<HTMLCanvasElement>;
type Trouble = 'none' | 'lost' | 'missing';

const WORDS: Record<Exclude<Trouble, 'none'>, string> = {
  lost: 'The picture stopped. It comes back as soon as the browser lets it; nothing in the scene is lost.',
  missing: 'This browser can’t draw the mold in 3D. The gauge, the card and the outline do everything without it.',
};

export const MoldView: FC<MoldViewProps> = (props) => {
  const holder = useRef<HTMLDivElement>(null);
  const svg = useRef<SVGSVGElement>(null);
  const [stage] = useState(() => new Stage());
  const [root, setRoot] = useState<Root | null>(null);
  const [trouble, setTrouble] = useState<Trouble>('none');
  const { onContextLost, colors } = props;

  useLayoutEffect(() => {
    if (!holder.current || !svg.current) return;
    const opened = openPicture(holder.current, svg.current, stage);
    if (!opened) {
      setTrouble('missing');
      return;
    }
    setRoot(opened.root);
    return () => {
      setRoot(null);
      opened.close();
    };
  }, [stage]);

  useEffect(() => {
    const place = holder.current;
    if (!place) return;
    // The events come from the canvas and don't bubble: caught on their way down.
    const lost = (event: Event): void => {
      event.preventDefault(); // else the browser never gives it back
      setTrouble('lost');
      onContextLost?.(true);
    };
    const back = (): void => {
      setTrouble('none');
      onContextLost?.(false);
      stage.redraw();
    };
    place.addEventListener('webglcontextlost', lost, true);
    place.addEventListener('webglcontextrestored', back, true);
    return () => {
      place.removeEventListener('webglcontextlost', lost, true);
      place.removeEventListener('webglcontextrestored', back, true);
    };
  }, [stage, onContextLost]);

  useLayoutEffect(() => {
    stage.setProps(props);
    root?.render(<StageParts stage={stage} props={props} />);
  }, [stage, root, props]);

  return (
    <div style={{ position: 'relative', width: '100%', height: '100%', overflow: 'hidden' }}>
      <div ref={holder} style={{ position: 'absolute', inset: 0 }} />
      <svg ref={svg} aria-hidden="true" style={{ position: 'absolute', left: 0, top: 0, pointerEvents: 'none', overflow: 'hidden' }} />
      {trouble === 'none' ? null : <Notice color={colors.ink}>{WORDS[trouble]}</Notice>}
    </div>
  );
};

function Notice({ color, children }: { color: string; children: ReactNode }): ReactNode {
  return (
    <p role="status" style={{ position: 'absolute', inset: 0, margin: 'auto', width: '80%', maxWidth: '26em', height: 'fit-content', textAlign: 'center', color }}>
      {children}
    </p>
  );
}

/** The canvas with its renderer, hand and size watch, all closed together. Null where the browser gives no WebGL. */
function openPicture(holder: HTMLElement, svg: SVGSVGElement, stage: Stage): { root: Root; close(): void } | null {
  const canvas = document.createElement('canvas');
  canvas.style.cssText = 'display:block;width:100%;height:100%;touch-action:none;outline:none';
  canvas.setAttribute('role', 'img');
  canvas.setAttribute('aria-label', 'The mold');
  let renderer: WebGLRenderer;
  try {
    renderer = new WebGLRenderer({ canvas, alpha: true, antialias: true });
  } catch {
    return null;
  }
  renderer.setClearColor(0x000000, 0);
  holder.append(canvas);
  const camera = new PerspectiveCamera();
  const root = createRoot(canvas);
  const sizeNow = (): { width: number; height: number; top: number; left: number } => ({ width: Math.max(1, holder.clientWidth), height: Math.max(1, holder.clientHeight), top: 0, left: 0 });
  void root.configure({ gl: renderer, camera, frameloop: 'demand', dpr: [1, 2], flat: true, size: sizeNow() });
  const store = root.render(null);
  const gl = renderer.getContext() as WebGL2RenderingContext;
  const pace = new Pace(gl, () => store.getState().invalidate());
  stage.connect({ camera, svg, pace, software: drawsInSoftware(gl) });
  const resize = (): void => {
    const { width, height } = sizeNow();
    Object.assign(svg.style, { width: `${width}px`, height: `${height}px` });
    store.getState().setSize(width, height);
    stage.setPx(renderer.getPixelRatio());
    stage.setSize(width, height);
  };
  resize();
  // A canvas of another size waits for all that is being drawn, and the page with it: not under a moving hand.
  const watch = new ResizeObserver(() => stage.whenStill(resize));
  watch.observe(holder);
  const hand = new Hand(canvas, stage);
  setCurrentView({ stage, renderer, scene: store.getState().scene, camera });
  return {
    root,
    close() {
      setCurrentView(null);
      watch.disconnect();
      hand.dispose();
      stage.disconnect();
      pace.dispose();
      root.unmount();
      // The root gives the context back itself, half a second later.
      renderer.dispose();
      canvas.remove();
    },
  };
}
