/** Whose the wheel is over a picture: the page's where there is more of it to see, else the picture's, which comes nearer. */
import type { WheelEvent } from 'react';

/** For a picture's `onWheelCapture`. With Ctrl or Cmd, and by two fingers on a pad, the picture comes nearer always. */
export function leaveWheelToPage(event: WheelEvent): void {
  const { scrollHeight, clientHeight } = document.documentElement;
  if (scrollHeight > clientHeight && !event.ctrlKey && !event.metaKey) event.stopPropagation();
}
