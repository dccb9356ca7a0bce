/** The view as a 3D model: figures, beds, sheets, mold and water as shown now. GLB, meters, y up. */

import { Color, Group, Mesh, MeshStandardMaterial, DoubleSide, type BufferGeometry, type Object3D, type Texture, type ShaderMaterial } from 'three';
import { currentView } from './current-view.ts';

/** The renderer's frame is the mold's (mm, z up); the file's is meters, y up. */
const METERS_PER_MM = 0.001;

/** Rejects if the view is not on the page. The exporter is fetched on the first call. */
export async function writeModel(): Promise<Blob> {
  const { stage, scene } = currentView();
  stage.restNow();
  const { GLTFExporter } = await import('three/addons/exporters/GLTFExporter.js');
  const root = new Group();
  root.name = 'Stillpool';
  root.rotation.x = -Math.PI / 2;
  root.scale.setScalar(METERS_PER_MM);
  const made: MeshStandardMaterial[] = [];
  scene.updateMatrixWorld(true);
  scene.traverseVisible((object) => {
    const copy = plainCopy(object);
    if (!copy) return;
    made.push(copy.material);
    root.add(copy);
  });
  root.updateMatrixWorld(true);
  try {
    const file = await new GLTFExporter().parseAsync(root, { binary: true });
    return new Blob([file as ArrayBuffer], { type: 'model/gltf-binary' });
  } finally {
    for (const material of made) material.dispose();
  }
}

/** A mesh with a plain material for other programs; null for ink, contours, shadow and empty parts. */
function plainCopy(object: Object3D): Mesh<BufferGeometry, MeshStandardMaterial> | null {
  if (!(object instanceof Mesh) || 'isLineSegments2' in object || object.userData.decoration) return null;
  const { geometry, material } = object as Mesh<BufferGeometry, ShaderMaterial>;
  const position = geometry.getAttribute('position');
  if (!position || position.count === 0) return null;
  const { uniforms } = material;
  const plain = new MeshStandardMaterial({ roughness: 1, metalness: 0, side: DoubleSide });
  if (uniforms.uBase) plain.color.setRGB(uniforms.uBase.value.x, uniforms.uBase.value.y, uniforms.uBase.value.z, 'srgb');
  else if (uniforms.uInk && uniforms.uStrength) plain.color.setRGB(uniforms.uInk.value.x, uniforms.uInk.value.y, uniforms.uInk.value.z, 'srgb');
  if (geometry.getAttribute('color')) plain.vertexColors = true;
  if (uniforms.uArt) plain.map = (uniforms.uArt.value as Texture).clone();
  if (material.transparent) {
    plain.transparent = true;
    plain.opacity = (uniforms.uOpacity?.value as number | undefined) ?? (uniforms.uArt ? 1 : 0.3);
  }
  const copy = new Mesh(geometry.getAttribute('color') ? withLinearColors(geometry) : geometry, plain);
  copy.name = object.name;
  object.matrixWorld.decompose(copy.position, copy.quaternion, copy.scale);
  return copy;
}

/** The view's colors are the page's (sRGB); a model's are linear. */
function withLinearColors(geometry: BufferGeometry): BufferGeometry {
  const own = geometry.clone();
  const colors = own.getAttribute('color');
  const color = new Color();
  for (let i = 0; i < colors.count; i++) {
    color.setRGB(colors.getX(i), colors.getY(i), colors.getZ(i), 'srgb');
    colors.setXYZ(i, color.r, color.g, color.b);
  }
  return own;
}
