/** The piece's meshes: each file is read and checked once for each unit, in whatever piece it comes. */
import { isMesh, type MeshShape } from '../core/scene/mesh-shape.ts';
import { lastPart } from '../core/scene/links.ts';
import type { Shape } from '../core/scene/scene.ts';
import { lighterCopy } from '../core/solid/lighter.ts';
import type { Booleans, MeshReading, TriangleMesh } from '../core/solid/solid.ts';
import { MeshFileError, SceneFileError } from '../files/fail.ts';
import { PACKED_ENDING } from '../files/figure-ending.ts';
import type { FigureLibrary } from '../files/load.ts';
import { resolveLink } from '../files/scene-text.ts';
import type { PieceFile, Progress } from './protocol.ts';

/** Files of this size are read while the person waits: what is being done is told. */
const TOLD_BYTES = 8e6;
/** Bytes fetched between two words on how far it has come. */
const A_PART_BYTES = 8 * 2 ** 20;
/** Of the time that reading takes, the fetching of the bytes. */
const FETCHING_SHARE = 0.35;
/** Triangles of the copy to look at while the rest is checked. */
const LOOKED_AT = 80_000;
/** Triangles kept of meshes that are not in use, beside the newest: some 100 MB. */
const SPARE_TRIANGLES = 3e6;

export interface MeshSurroundings {
  booleans(): Promise<Booleans>;
  readonly library: FigureLibrary;
  readonly tell: (progress: Progress) => void;
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
    let newest = true;
    for (const [key, { mesh }] of [...this.#readings].reverse()) {
      if (this.#used.has(key)) continue;
      spare += mesh.indices.length / 3;
      // The newest may have been measured for a figure that is about to be added.
      if (spare > SPARE_TRIANGLES && !newest) this.#readings.delete(key);
      newest = false;
    }
  }

  /** What is told of a large file, or null of any other. */
  told(shape: MeshShape): { readonly name: string } | null {
    const file = shape.type === 'mesh' ? this.#files.get(resolveLink(shape.file)) : undefined;
    return file && file.blob.size > TOLD_BYTES ? { name: lastPart(file.path) } : null;
  }

  /** Throws MeshFileError or SceneFileError, as reading the scene from files would. `shown`: with a copy to look at meanwhile. */
  async reading(shape: MeshShape, { shown = false } = {}): Promise<MeshReading> {
    const file = shape.type === 'mesh' ? this.#files.get(resolveLink(shape.file)) : undefined;
    if (shape.type === 'mesh' && !file) throw new SceneFileError(`names "${shape.file}", and there is no such file beside the scene. Put it there, or choose it again.`);
    const key = shape.type === 'mesh' ? `${file!.id} ${shape.unit ?? ''}` : `library ${shape.name}`;
    const known = this.#readings.get(key);
    const reading = known ?? (await this.#read(shape, file, shown));
    this.#readings.delete(key);
    this.#readings.set(key, reading);
    this.#used.add(key);
    return reading;
  }

  /** Of those that have a mesh, by id; `failed` says why one can't be read. */
  async readings(things: readonly { readonly id: string; readonly shape: Shape }[]): Promise<{ readonly meshes: Map<string, MeshReading>; readonly failed: Map<string, string> }> {
    const meshes = new Map<string, MeshReading>();
    const failed = new Map<string, string>();
    for (const { id, shape } of things) {
      if (!isMesh(shape)) continue;
      try {
        meshes.set(id, await this.reading(shape));
      } catch (error) {
        if (!(error instanceof MeshFileError || error instanceof SceneFileError)) throw error;
        failed.set(id, error.message);
      }
    }
    return { meshes, failed };
  }

  async #read(shape: MeshShape, file: PieceFile | undefined, shown: boolean): Promise<MeshReading> {
    const [booleans, { sound }] = await Promise.all([this.#around.booleans(), meshChecks()]);
    if (shape.type === 'library') return sound(await this.#libraryMesh(shape.name), booleans);
    const told = this.told(shape);
    const tell = (stage: string) => (share: number) => {
      if (told) this.#around.tell({ ...told, stage, share });
    };
    const reading = tell('reading it');
    const { readMesh } = await meshReaders();
    const bytes = await bytesOf(file!.blob, (share) => reading(FETCHING_SHARE * share));
    const mesh = readMesh(bytes, shape.file, shape.unit, { onShare: (share) => reading(FETCHING_SHARE + (1 - FETCHING_SHARE) * share) });
    if (told && shown) this.#around.tell({ ...told, stage: 'checking it', share: 0, lighter: lighterCopy(mesh.positions, mesh.indices, LOOKED_AT) });
    const checked = sound(mesh, booleans, tell('checking it'));
    booleans.prepare?.(checked.mesh);
    return checked;
  }

  async #libraryMesh(name: string): Promise<TriangleMesh> {
    const { library } = this.#around;
    const found = await library.read(name);
    if (!found) throw new SceneFileError(`found "${name}"; expected one of our own figures: ${library.names.join(', ')}.`);
    if (found.file.endsWith(PACKED_ENDING)) return (await import('../files/figure-pack.ts')).unpackFigure(found.bytes);
    const { readMesh } = await meshReaders();
    return readMesh(found.bytes, found.file);
  }
}

async function bytesOf(blob: Blob, onShare: (share: number) => void): Promise<Uint8Array> {
  if (blob.size <= A_PART_BYTES) return new Uint8Array(await blob.arrayBuffer());
  const bytes = new Uint8Array(blob.size);
  for (let at = 0; at < blob.size; at += A_PART_BYTES) {
    onShare(at / blob.size);
    bytes.set(new Uint8Array(await blob.slice(at, at + A_PART_BYTES).arrayBuffer()), at);
  }
  return bytes;
}

/** Six formats are a good part of the worker's code; a scene of plain shapes needs none of them. */
const meshReaders = () => import('../files/mesh/read.ts');
const meshChecks = () => import('../core/solid/mesh-sound.ts');
