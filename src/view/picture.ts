/** The view as a picture: paper, drawing, pour numbers and names; without the handles. */

import { currentView } from './current-view.ts';

/** PNG of the current view in device px. Rejects if it is not on the page or the browser can't make the picture. */
export async function viewPicture(): Promise<Blob> {
  const { stage, renderer, scene, camera } = currentView();
  const { props } = stage;
  if (!props) throw new Error('The mold is not drawn yet. Wait a moment, then try again.');
  const { colors } = props;
  stage.restNow();
  stage.withNothingChosen(() => renderer.render(scene, camera));
  const { domElement: drawn } = renderer;
  const canvas = document.createElement('canvas');
  canvas.width = drawn.width;
  canvas.height = drawn.height;
  const pen = canvas.getContext('2d');
  if (!pen) throw new Error('This browser gave no canvas for the picture. Close other pages and try again.');
  pen.fillStyle = colors.ground;
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.drawImage(drawn, 0, 0); // in the same task as the frame: later the browser has cleared it
  pen.scale(renderer.getPixelRatio(), renderer.getPixelRatio());
  pen.lineJoin = 'round';
  pen.lineWidth = 5;
  pen.strokeStyle = colors.ground;
  const { numbers, names } = stage.marks();
  const write = (text: string, x: number, y: number, look: { font: string; fill: string }): void => {
    pen.font = look.font;
    pen.fillStyle = look.fill;
    pen.strokeText(text, x, y);
    pen.fillText(text, x, y);
  };
  for (const { text, at } of names) write(text, at[0], at[1], { font: 'italic 15px Alegreya, serif', fill: colors.ink2 });
  for (const { text, at, kind } of numbers) write(text, at[0], at[1] + 5, { font: '700 15px "Alegreya Sans", sans-serif', fill: kind === 'halted' ? colors.brick : colors.ink });
  return new Promise((resolve, reject) => {
    canvas.toBlob((blob) => (blob ? resolve(blob) : reject(new Error('The browser could not make the picture. Make the window smaller and try again.'))), 'image/png');
  });
}
