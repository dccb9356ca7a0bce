/**
 * Keeps what is derived in step with the document: one request at a time, the latest wins. While a drag lasts the
 * answers may be `about`; as soon as it rests they are made exact. Heat is judged in haste first, then wholly; a later
 * document breaks that off.
 */
import type { SceneFile } from '../core/scene/edit/file.ts';
import type { Problem } from '../core/scene/read.ts';
import { sectionOf } from '../core/sheet/section.ts';
import type { Answer, Editor, GivenFile, Kind, RequestOf, SolidForm } from '../work/protocol.ts';
import type { Derived } from './piece-state.ts';

/** ms. A drag that pauses this long rests. */
const REST_MS = 250;

/** What an answer that failed leaves to be done. */
const NOTHING_OPEN = { checkingHeat: false, about: false } as const;

export type Deriving =
  | { readonly ok: true; readonly derived: Derived }
  | { readonly ok: false; readonly problems: readonly Problem[]; readonly canceled: boolean };

interface Wanted {
  readonly document: SceneFile;
  readonly live: boolean;
  readonly heat: 'quick' | 'whole';
}

export class PieceDeriver {
  readonly #editor: Editor;
  /** Told of every answer, also of one that a later document has overtaken. `idle`: nothing more is on its way. */
  readonly #onDerived: (deriving: Deriving, idle: boolean) => void;
  /** Those the worker has sent and still counts on. */
  #forms: ReadonlyMap<string, SolidForm> = new Map();
  readonly #ids = new WeakMap<Blob, string>();
  #lastId = 0;
  #files: ReadonlyMap<string, Blob> = new Map();
  #given: ReadonlyMap<string, Blob> | null = null;
  #running = false;
  /** A whole check of heat is on its way. */
  #checking = false;
  #paused = 0;
  #wanted: Wanted | null = null;
  #resting: ReturnType<typeof setTimeout> | undefined;

  constructor(editor: Editor, onDerived: (deriving: Deriving, idle: boolean) => void) {
    this.#editor = editor;
    this.#onDerived = onDerived;
  }

  /** What links of the document lead to. */
  setFiles(files: ReadonlyMap<string, Blob>): void {
    this.#files = files;
  }

  want(document: SceneFile, live: boolean): void {
    this.#want({ document, live, heat: 'quick' });
  }

  /** Of a document whose heat was judged in haste: wholly. */
  check(document: SceneFile): void {
    this.#want({ document, live: false, heat: 'whole' });
  }

  /** Tries a document with its files, while what is wanted waits. */
  async attempt(document: SceneFile, files: ReadonlyMap<string, Blob>): Promise<Deriving> {
    this.#paused++;
    try {
      return (await this.#derive({ document, live: false, heat: 'quick' }, files)) ?? { ok: false, problems: [], canceled: true };
    } finally {
      this.#paused--;
    }
  }

  /** What was wanted is of no use any more: another piece is there. */
  drop(): void {
    clearTimeout(this.#resting);
    this.#wanted = null;
  }

  /** Goes on with what is wanted after an attempt that came to nothing. */
  resume(): void {
    if (this.#wanted && !this.#running && this.#paused === 0) void this.#run();
  }

  /** Any other request, with the files given first. */
  ask<K extends Kind>(request: RequestOf<K>): Promise<Answer<K>> {
    this.#giveFiles(this.#files);
    return this.#editor.ask(request);
  }

  /** What needs none of the piece's files. */
  open(files: readonly GivenFile[]): Promise<Answer<'open'>> {
    return this.#editor.ask<'open'>({ kind: 'open', files });
  }

  cancel(): void {
    this.#given = null;
    this.#editor.cancel();
  }

  #want(wanted: Wanted): void {
    clearTimeout(this.#resting);
    this.#wanted = wanted;
    if (this.#checking) void this.#editor.ask<'hurry'>({ kind: 'hurry' });
    if (!this.#running && this.#paused === 0) void this.#run();
  }

  async #run(): Promise<void> {
    this.#running = true;
    while (this.#wanted && this.#paused === 0) {
      const wanted = this.#wanted;
      const { document, live } = wanted;
      this.#wanted = null;
      this.#checking = wanted.heat === 'whole';
      const deriving = await this.#derive(wanted, this.#files);
      this.#checking = false;
      if (deriving === null) {
        this.#wanted ??= wanted;
        continue;
      }
      const { checkingHeat, about } = deriving.ok ? deriving.derived : NOTHING_OPEN;
      if (checkingHeat && !live) this.#wanted ??= { document, live, heat: 'whole' };
      const idle = this.#wanted === null;
      this.#onDerived(deriving, idle);
      if (idle && (about || checkingHeat)) this.#resting = setTimeout(() => this.want(document, false), REST_MS);
    }
    this.#running = false;
  }

  /** Null: broken off for what came after it. */
  async #derive({ document, live, heat }: Wanted, files: ReadonlyMap<string, Blob>): Promise<Deriving | null> {
    this.#giveFiles(files);
    const answer = await this.#editor.ask<'derive'>({ kind: 'derive', document, live, heat });
    if (!answer.ok) {
      if (answer.overtaken) return null;
      if (answer.canceled) this.#given = null;
      return { ok: false, problems: answer.problems, canceled: answer.canceled ?? false };
    }
    const { scene, plan, silhouettes, about, checkingHeat } = answer.value;
    const forms = new Map<string, SolidForm>();
    const solids = answer.value.solids.flatMap(({ form, ...solid }) => {
      const drawn = answer.value.forms.get(form) ?? this.#forms.get(form);
      if (!drawn) return [];
      forms.set(form, drawn);
      return [{ ...solid, ...drawn, turnZDeg: 0 }];
    });
    this.#forms = forms;
    const section = sectionOf({ scene, pours: plan.pours, silhouettes });
    return { ok: true, derived: { document, scene, plan, silhouettes, section, solids, about, checkingHeat } };
  }

  #giveFiles(files: ReadonlyMap<string, Blob>): void {
    if (this.#given === files) return;
    this.#given = files;
    void this.#editor.ask<'use'>({ kind: 'use', files: [...files].map(([path, blob]) => ({ id: this.#idOf(blob), path, blob })) });
  }

  #idOf(blob: Blob): string {
    let id = this.#ids.get(blob);
    if (id === undefined) this.#ids.set(blob, (id = `file ${++this.#lastId}`));
    return id;
  }
}
