/** Whether pictures are computed without a graphics card: every triangle then costs the machine that also runs the page. */

/** Names that software renderers give themselves (from memory, no source): Chromium's, Mesa's two, Windows' own, Apple's. */
const SOFTWARE = /swiftshader|llvmpipe|softpipe|basic render|software/i;

export function drawsInSoftware(gl: WebGL2RenderingContext): boolean {
  const names = gl.getExtension('WEBGL_debug_renderer_info');
  return SOFTWARE.test(String(gl.getParameter(names ? names.UNMASKED_RENDERER_WEBGL : gl.RENDERER)));
}
