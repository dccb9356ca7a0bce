/** What of the view goes into a file. Light: the 3D library comes with the view, the model's writer on the first call. */

export { viewPicture } from './picture.ts';

/** GLB of what is shown now, meters, y up. Rejects if the mold is not drawn. */
export async function viewModel(): Promise<Blob> {
  const { writeModel } = await import('./model.ts');
  return writeModel();
}
