/** The piece's meshes: each file is read and checked once for each unit, in whatever piece it comes. */
import type { Shape } from '../core/scene/scene.ts';
import { sound } from '../core/solid/mesh-sound.ts';
import type { Booleans, MeshReading, TriangleMesh } from '../core/solid/solid.ts';
import { SceneFileError } from '../files/bundle.ts';
import type { FigureLibrary } from '../files/load.ts';
import { resolveLink } from '../files/bundle.ts';
import type { PieceFile, Progress } from './protocol.ts';

export type MeshShape = Extract<Shape, { type: 'mesh' | 'library' }>;

/** Files of this size are read while the person waits: what is being done is told. */
const TOLD_BYTES = 8e6;
/** Triangles kept of meshes that are not in use: some 100 MB. */
const SPARE_TRIANGLES = 3e6;

export interface MeshSurroundings {
  booleans(): Promise<Booleans>;
  readonly library: FigureLibrary;
  readonly tell: (progress: Progress | null) => void;
}

export class PieceMeshes {
  readonly #around: MeshSurroundings;
  #files: ReadonlyMap<string, PieceFile> = new Map();
  /** In order of use, the oldest first. */
  readonly #readings = new Map<string, MeshReading>();
  #used = new Set<string>();

  constructor(around: MeshSurroundings) {
    this.#around = around;
  }

  use(files: readonly PieceFile[]): void {
    this.#files = new Map(files.map((file) => [file.path, file]));
  }

  file(path: string): PieceFile | undefined {
    return this.#files.get(path);
  }

  begin(): void {
    this.#used = new Set();
  }

  end(): void {
    let spare = 0;
    for (const [key, { mesh }] of [...this.#readings].reverse()) {
      if (this.#used.has(key)) continue;
      spare += mesh.indices.length / 3;
      if (spare > SPARE_TRIANGLES) this.#readings.delete(key);
    }
  }

  /** Throws MeshFileError or SceneFileError, as reading the scene from files would. */
  async reading(shape: MeshShape): Promise<MeshReading> {
    const file = shape.type === 'mesh' ? this.#files.get(resolveLink(shape.file)) : undefined;
    if (shape.type === 'mesh' && !file) throw new SceneFileError(`names "${shape.file}", and there is no such file beside the scene. Put it there, or choose it again.`);
    const key = shape.type === 'mesh' ? `${file!.id} ${shape.unit ?? ''}` : `library ${shape.name}`;
    const known = this.#readings.get(key);
    const reading = known ?? (await this.#read(shape, file));
    this.#readings.delete(key);
    this.#readings.set(key, reading);
    this.#used.add(key);
    return reading;
  }

  async #read(shape: MeshShape, file: PieceFile | undefined): Promise<MeshReading> {
    const booleans = await this.#around.booleans();
    if (shape.type === 'library') return sound(await this.#libraryMesh(shape.name), booleans);
    const name = nameOf(file!.path);
    const large = file!.blob.size > TOLD_BYTES;
    const tell = (stage: string) => large && this.#around.tell({ name, stage });
    try {
      tell('reading it');
      const { readMesh } = await meshReaders();
      const mesh = readMesh(new Uint8Array(await file!.blob.arrayBuffer()), shape.type === 'mesh' ? shape.file : name, shape.type === 'mesh' ? shape.unit : undefined);
      tell('checking it');
      return sound(mesh, booleans);
    } finally {
      if (large) this.#around.tell(null);
    }
  }

  async #libraryMesh(name: string): Promise<TriangleMesh> {
    const { library } = this.#around;
    const found = await library.read(name);
    if (!found) throw new SceneFileError(`found "${name}"; expected one of our own figures: ${library.names.join(', ')}.`);
    const { readMesh } = await meshReaders();
    return readMesh(found.bytes, found.file);
  }
}

/** Six formats are a good part of the worker's code; a scene of plain shapes needs none of them. */
const meshReaders = () => import('../files/mesh/read.ts');

const nameOf = (path: string): string => path.slice(path.lastIndexOf('/') + 1);
