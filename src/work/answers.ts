/**
 * What the worker does with each request. It knows neither worker nor page, so it runs in Node as well; what differs
 * between them comes in as `Surroundings`. It keeps what it read and measured for the next request.
 */
import { meshBounds } from '../core/solid/shape-volume.ts';
import type { Regions } from '../core/sight/region.ts';
import type { Booleans } from '../core/solid/solid.ts';
import type { Problem } from '../core/scene/read.ts';
import { MeshFileError, SceneFileError } from '../files/fail.ts';
import type { FontReader, SheetFonts } from '../files/fonts.ts';
import type { FigureLibrary } from '../files/load.ts';
import { Deriver } from './derive.ts';
import { openedText } from './opened-text.ts';
import type { PaintedDesk } from './painted.ts';
import { PieceMeshes } from './piece-meshes.ts';
import type { AddedMesh, Answer, DemoName, Gives, Kind, Progress, Request, RequestOf, SheetScene } from './protocol.ts';

export interface Surroundings {
  booleans(): Promise<Booleans>;
  readonly library: FigureLibrary;
  /** A demo scene's JSON. */
  demo(name: DemoName): Promise<string>;
  readonly readFont: FontReader;
  /** Uniting and cutting of flat regions. */
  regions(): Promise<Regions>;
}

export class Answers {
  readonly #around: Surroundings;
  readonly #meshes: PieceMeshes;
  readonly #deriver: Deriver;
  readonly #tell: (progress: Progress | null) => void;
  #painting: PaintedDesk | null = null;
  /** Something was told of the request that is being answered. */
  #told = false;

  /** @param overtaken lets requests in, and says whether one waits. */
  constructor(around: Surroundings, onProgress: (progress: Progress | null) => void, overtaken: () => Promise<boolean> = async () => false) {
    this.#around = around;
    this.#tell = onProgress;
    const tell = (progress: Progress): void => {
      this.#told = true;
      onProgress(progress);
    };
    const booleans = () => around.booleans();
    this.#meshes = new PieceMeshes({ booleans, library: around.library, tell });
    this.#deriver = new Deriver(this.#meshes, { booleans, tell, overtaken });
  }

  /** One at a time. Never rejects: what went wrong is told as problems. */
  async answer(request: Request): Promise<Answer<Kind>> {
    try {
      return await this.#answered(request);
    } catch (error) {
      const known = error instanceof SceneFileError || error instanceof MeshFileError;
      return refused(known ? error.message : `Something went wrong in here, not in your file: ${error instanceof Error ? error.message : String(error)} Reload the page and try again.`);
    } finally {
      if (this.#told) this.#tell(null);
      this.#told = false;
    }
  }

  async #answered(request: Request): Promise<Answer<Kind>> {
    switch (request.kind) {
      case 'use':
        this.#meshes.use(request.files);
        return given<'use'>(null);
      case 'demo':
        return given<'demo'>(openedText(await this.#around.demo(request.name), new Map()));
      case 'open':
        return given<'open'>(await (await import('./given-files.ts')).openedFrom(request.files));
      case 'measure':
        return given<'measure'>(await this.#measured(request.path));
      case 'derive':
        return this.#deriver.derive(request);
      case 'hurry':
        return given<'hurry'>(null);
      case 'compare':
        return this.#deriver.compare(request);
      case 'what if':
        return this.#deriver.whatIf(request);
      case 'painted':
        return given<'painted'>(await (await this.#desk()).painted(request.scene, this.#around, this.#meshes));
      case 'heat series':
        return given<'heat series'>(await this.#deriver.series(request));
      case 'heat task':
        return given<'heat task'>(await this.#deriver.heatTask(request.planned));
      case 'pack':
        return given<'pack'>(await this.#packed(request));
      case 'sheet':
        return given<'sheet'>((await this.#laidOut(request)).document);
      case 'pdf': {
        const { document, fonts } = await this.#laidOut(request);
        const { sheetPdf } = await import('../files/pdf.ts');
        return given<'pdf'>(await sheetPdf(document, fonts));
      }
      case 'templates':
        return given<'templates'>(await (await import('./templates.ts')).templatesOf(request, this.#around, this.#meshes));
    }
  }

  async #desk(): Promise<PaintedDesk> {
    return (this.#painting ??= new (await import('./painted.ts')).PaintedDesk());
  }

  /** The typefaces and the layout are a good part of the code and only the sheet needs them, so they are fetched here. */
  async #laidOut({ planned, paper, units }: RequestOf<'sheet' | 'pdf'>) {
    const [{ loadSheetFonts }, { layoutSheet }] = await Promise.all([import('../files/fonts.ts'), import('../core/sheet/layout.ts')]);
    const fonts: SheetFonts = await loadSheetFonts(this.#around.readFont, lettersOf(planned));
    const { scene, plan } = planned;
    const creatures = scene.creatures.length > 0 ? await (await this.#desk()).outlines(scene, this.#meshes) : [];
    const silhouettes = new Map([...planned.silhouettes, ...creatures]);
    return { document: layoutSheet({ scene, plan, silhouettes, measure: fonts.measure, printable: fonts.printable, units }, paper), fonts };
  }

  async #measured(path: string): Promise<AddedMesh> {
    const { mesh } = await this.#deriver.prepared({ type: 'mesh', file: path });
    const { min, max } = meshBounds(mesh);
    return { triangles: mesh.indices.length / 3, sizeMm: [max[0] - min[0], max[1] - min[1], max[2] - min[2]] };
  }

  async #packed({ sceneText, paths }: RequestOf<'pack'>): Promise<Gives['pack']> {
    const files: [string, Uint8Array][] = [];
    for (const path of paths) {
      const file = this.#meshes.file(path);
      if (file) files.push([path, new Uint8Array(await file.blob.arrayBuffer())]);
    }
    const { writeBundle } = await import('../files/bundle.ts');
    return new Blob([writeBundle(sceneText, files) as Uint8Array<ArrayBuffer>], { type: 'application/zip' });
  }
}

const lettersOf = ({ scene, plan }: SheetScene): string => JSON.stringify([scene.name, scene.placements, scene.creatures.map(({ name }) => name), [...scene.formulas.values()], plan]);

function given<K extends Kind>(value: Gives[K]): Answer<Kind> {
  return { ok: true, value } as Answer<Kind>;
}

function refused(message: string): { readonly ok: false; readonly problems: readonly Problem[] } {
  return { ok: false, problems: [{ path: '', message }] };
}
