/** Whether a file of this name may bring colors; of one without an ending its bytes would have to be read. */
export function mayHaveColors(fileName: string): boolean {
  return /\.(?:glb|gltf|ply)$/i.test(fileName);
}
