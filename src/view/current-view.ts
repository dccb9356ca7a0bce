/** The view on the page now, for pictures and models of it. There is one. */

import type { Camera, Scene as ThreeScene, WebGLRenderer } from 'three';
import type { Stage } from './stage.ts';

export interface CurrentView {
  readonly stage: Stage;
  readonly renderer: WebGLRenderer;
  readonly scene: ThreeScene;
  readonly camera: Camera;
}

let current: CurrentView | null = null;

export function setCurrentView(view: CurrentView | null): void {
  current = view;
}

/** @throws {Error} if the mold view is not on the page. */
export function currentView(): CurrentView {
  if (!current) throw new Error('The mold is not drawn now. Open Compose or Pours, then try again.');
  return current;
}
