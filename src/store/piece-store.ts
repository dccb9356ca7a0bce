/**
 * The page's one state: the piece being made, what is derived from it, what is being opened, what went wrong, how safe
 * it is. A scene that can't be opened leaves the one shown as it was; of several openings the last wins.
 */
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Finding } from '../core/plan/plan.ts';
import type { EditResult, SceneFile } from '../core/scene/edit/file.ts';
import { messageOf } from '../files/fail.ts';
import { linksOf } from '../files/links.ts';
import type { Editor } from '../work/protocol.ts';
import { FileAdding } from './adding-file.ts';
import { comingFrom, comingOf, unreadable, type Coming, type NotComing } from './coming.ts';
import { findingShown } from './findings.ts';
import type { HeldPiece, Snapshot } from './keeping/held-piece.ts';
import type { Keeping } from './keeping/keeping.ts';
import { sha256 } from './keeping/sha256.ts';
import { pieceAnswers, usualPaper } from './piece-answers.ts';
import { PieceDeriver, type Deriving } from './piece-deriving.ts';
import { keptPiece, recentPieces } from './other-pieces.ts';
import { PieceKeeper, type Origin } from './piece-keeper.ts';
import { PiecePainting } from './piece-painting.ts';
import { rememberedPiece, rememberedUnits, rememberPiece, rememberUnits, type Memories } from './piece-memory.ts';
import type { DemoName, KeptState, PieceState } from './piece-state.ts';

export interface PieceStoreOptions {
  readonly editor: Editor;
  readonly keeping: Promise<Keeping>;
  readonly memories: Memories;
}

export type PieceStore = StoreApi<PieceState> & {
  /** Opens what this tab had open, else what was changed last, else the demo. */
  start(): Promise<void>;
};

const UNTOUCHED: KeptState = { state: 'untouched', trouble: null, notices: [], unsaved: null, fileName: null };
const READ_ONLY_WORDS = {
  newer: 'Made with a newer version: it can’t be changed here.',
  'another-tab': 'This piece is being changed in another tab. Take it over to change it here.',
} as const;
const NOTHING_OPEN: Partial<PieceState> = { lookedAt: null, selected: [], chosenPour: null, findingAt: 0, sheet: { kind: 'none' }, refusal: null, dragging: false, undoStep: null, redoStep: null };

export function createPieceStore({ editor, keeping: opening, memories }: PieceStoreOptions): PieceStore {
  let lastOpening = 0;
  let keeping: Keeping | null = null;
  let beforeDrag: SceneFile | null = null;
  /** As they were last listed: `restore` is given one by its moment. */
  let snapshots: readonly Snapshot[] = [];
  /** The text of a file from a newer version, which is saved as it came. */
  let newerText: string | null = null;
  /** What the last plan of this piece with its heat checked found: against it a finding is new. */
  let checked: readonly Finding[] | null = null;

  const store = createStore<PieceState>()((set, get) => {
    const deriver = new PieceDeriver(editor, onDerived);
    const keeper = new PieceKeeper(opening, onKept);
    const painting = new PiecePainting((scene) => deriver.ask<'painted'>({ kind: 'painted', scene }), (painted) => set({ painted }));
    const adding = new FileAdding({
      files: () => get().files,
      giveFiles,
      measure: (path) => deriver.ask<'measure'>({ kind: 'measure', path }),
      keepFile: (blob) => keeper.keepFile(blob),
      show: set,
      deriving: () => get().deriving,
      askAgain: () => derive(false),
    });
    editor.onProgress((progress) => adding.onProgress(progress));
    void opening.then((opened) => {
      keeping = opened;
      opened.subscribe(onKept);
      onKept();
    });

    function onDerived(deriving: Deriving, idle: boolean): void {
      const { document, derived: before, findingAt, chosenPour, selected } = get();
      if (!deriving.ok) {
        set({ unplanned: deriving.problems, deriving: !idle, ...(idle && !adding.busy && { lookedAt: null }) });
        return;
      }
      const { derived } = deriving;
      const shown = findingShown(derived.plan.findings, before?.plan.findings ?? [], findingAt, checked);
      if (!derived.checkingHeat) checked = derived.plan.findings;
      // What was just added is in the document before it is in any answer.
      const ids = new Set([...(document?.placements ?? []), ...(document?.creatures ?? [])].map(({ id }) => id));
      set({
        derived,
        unplanned: [],
        deriving: !idle,
        findingAt: shown,
        chosenPour: chosenPour !== null && chosenPour > derived.plan.pours.length ? null : chosenPour,
        selected: selected.every((id) => ids.has(id)) ? selected : selected.filter((id) => ids.has(id)),
        ...(idle && !adding.busy && { lookedAt: null }),
        sheet: { kind: 'none' },
      });
      if (!get().dragging) painting.follow(derived.scene);
    }

    /** Follows what the keeping says: undo, redo, how safe it is, who may edit, and in a reader what the editor did. */
    function onKept(): void {
      const { held } = keeper;
      const { document } = get();
      const kept = keptState(keeper, keeping);
      if (!held) {
        if (keeper.queued === 0) set({ kept });
        return;
      }
      rememberPiece(memories, held.piece.id);
      const now = held.readOnly ?? (held.role === 'reader' ? 'another-tab' : null);
      set({ kept, readOnly: now });
      if (keeper.queued === 0) set({ undoStep: stepOf(held.piece.undo), redoStep: stepOf(held.piece.redo) });
      const followed = keeper.document;
      if (now === 'another-tab' && !held.lost && followed && JSON.stringify(followed) !== JSON.stringify(document)) void follow(followed);
    }

    async function follow(document: SceneFile): Promise<void> {
      const missing = linksOf(document).some(({ path }) => !get().files.has(path));
      if (missing && keeper.held) giveFiles(await keeper.filesOf(keeper.held));
      show(document, false);
    }

    function giveFiles(files: ReadonlyMap<string, Blob>): void {
      set({ files });
      deriver.setFiles(files);
    }

    function derive(live: boolean): void {
      const { document } = get();
      if (!document) return;
      set({ deriving: true });
      deriver.want(document, live);
    }

    /** The document becomes this one; nothing is kept yet. */
    function show(document: SceneFile, live: boolean): void {
      set({ document });
      derive(live);
    }

    function mayEdit(): SceneFile | null {
      const { document, readOnly } = get();
      if (readOnly) set({ refusal: READ_ONLY_WORDS[readOnly] });
      return readOnly ? null : document;
    }

    function commit({ file, label }: Extract<EditResult, { ok: true }>): void {
      set({ undoStep: { label }, redoStep: null });
      keeper.edit(label, file, get().files);
      onKept();
    }

    async function move(by: 'undo' | 'redo'): Promise<void> {
      if (mayEdit() === null || get().dragging) return;
      const document = await keeper.move(by);
      if (!document) return;
      const missing = linksOf(document).some(({ path }) => !get().files.has(path));
      if (missing && keeper.held) giveFiles(new Map([...get().files, ...(await keeper.filesOf(keeper.held))]));
      set({ refusal: null });
      show(document, false);
    }

    /** Opens what `bring` gives, unless something else is opened meanwhile. */
    async function open(name: string, title: string, bring: () => Promise<Coming | NotComing>, keep: (coming: Coming) => void): Promise<boolean> {
      const mine = ++lastOpening;
      set({ opening: name, trouble: null });
      const coming = await bring().catch((error: unknown) => ({ problems: [{ path: '', message: unreadable(name, error) }] }));
      if (mine !== lastOpening) return false;
      const tried = 'problems' in coming ? null : await deriver.attempt(coming.document, coming.files);
      if (mine !== lastOpening || 'problems' in coming || !tried?.ok) {
        deriver.resume();
        if (mine !== lastOpening) return false;
        const stopped = tried && !tried.ok && tried.canceled;
        const problems = 'problems' in coming ? coming.problems : tried && !tried.ok ? tried.problems : [];
        set({ opening: null, reading: null, trouble: stopped ? null : { title, problems, unchanged: true } });
        return false;
      }
      deriver.drop();
      giveFiles(coming.files);
      beforeDrag = null;
      checked = tried.derived.checkingHeat ? null : tried.derived.plan.findings;
      set({ ...NOTHING_OPEN, document: coming.document, derived: tried.derived, unplanned: [], deriving: tried.derived.checkingHeat, readOnly: coming.readOnly, kept: UNTOUCHED, opening: null });
      painting.begin(tried.derived.scene);
      if (tried.derived.checkingHeat) deriver.check(coming.document);
      keep(coming);
      onKept();
      return true;
    }

    const begin = (origin: Omit<Origin, 'document' | 'files'>, now: boolean) => ({ document, files }: Coming): void => {
      rememberPiece(memories, null);
      newerText = null;
      keeper.begin({ ...origin, document, files }, now);
    };

    return {
      document: null,
      derived: null,
      unplanned: [],
      deriving: false,
      dragging: false,
      painted: null,
      files: new Map(),
      selected: [],
      chosenPour: null,
      findingAt: 0,
      undoStep: null,
      redoStep: null,
      units: rememberedUnits(memories),
      readOnly: null,
      refusal: null,
      opening: null,
      reading: null,
      lookedAt: null,
      trouble: null,
      kept: UNTOUCHED,
      recents: [],
      paper: usualPaper(),
      sheet: { kind: 'none' },
      savingPdf: false,

      edit(edit) {
        const document = mayEdit();
        if (!document || get().dragging) return false;
        const result = edit(document);
        if (!result.ok) {
          set({ refusal: result.reason });
          return false;
        }
        set({ refusal: null });
        if (result.file === document) return true;
        show(result.file, false);
        commit(result);
        return true;
      },
      drag(edit, phase) {
        const { dragging } = get();
        if (!dragging && (phase === 'cancel' || mayEdit() === null)) return;
        if (!dragging) beforeDrag = get().document;
        const before = beforeDrag!;
        const result = phase === 'cancel' || get().readOnly ? null : edit(before);
        if (phase === 'move' && result) {
          set({ dragging: true, refusal: result.ok ? null : result.reason });
          if (result.ok && result.file !== get().document) show(result.file, true);
          return;
        }
        beforeDrag = null;
        set({ dragging: false, refusal: result && !result.ok ? result.reason : null });
        if (result?.ok && result.file !== before) {
          show(result.file, false);
          commit(result);
        } else show(before, false);
      },
      undo: () => void move('undo'),
      redo: () => void move('redo'),
      select(ids, how = 'replace') {
        const { selected } = get();
        if (how === 'replace') set({ selected: ids });
        else set({ selected: [...selected.filter((id) => !ids.includes(id)), ...ids.filter((id) => !selected.includes(id))] });
      },
      choosePour(pour) {
        const most = get().derived?.plan.pours.length ?? 0;
        set({ chosenPour: pour === null ? null : Math.min(Math.max(pour, 0), most) });
      },
      showFinding: (at) => set({ findingAt: Math.min(Math.max(at, 0), Math.max(0, (get().derived?.plan.findings.length ?? 0) - 1)) }),
      setUnits(units) {
        set({ units: { ...get().units, ...units }, sheet: { kind: 'none' } });
        rememberUnits(memories, get().units);
      },
      addFile: (name, bytes) => adding.add(name, bytes),
      async sizeOfMesh(path) {
        const answer = await deriver.ask<'measure'>({ kind: 'measure', path });
        return answer.ok ? answer.value.sizeMm : null;
      },

      openDemo: async (name) => void (await open('the demo scene', 'The demo scene can’t be opened', async () => comingOf(await editor.ask<'demo'>({ kind: 'demo', name })), begin({ name: DEMO_NAMES[name] }, false))),
      async openFiles(name, files) {
        let missing: readonly string[] = [];
        let from: Origin['from'];
        let newer: string | null = null;
        const bring = async () => {
          const answer = await deriver.open((await files()).map(({ path, blob }) => ({ path, blob })));
          if (!answer.ok) return answer;
          missing = answer.value.missing;
          const text = JSON.stringify(answer.value.document);
          from = { fileName: name, contentHash: await sha256(new TextEncoder().encode(text)) };
          const coming = await comingOf(answer);
          if ('document' in coming && coming.readOnly) newer = text;
          return coming;
        };
        const opened = await open(name, `${name} can’t be opened`, bring, (coming) => {
          begin({ name: coming.document.name ?? '', from }, newer === null)(coming);
          newerText = newer;
        });
        if (!opened) return;
        if (missing.length > 0) get().tellTrouble(`${name} was opened without its pictures`, `Not among the files: ${missing.join(', ')}. Open the scene again together with them, or drop them on their planes.`);
      },
      async openRecent(id) {
        let held: HeldPiece | null = null;
        const bring = async (): Promise<Coming | NotComing> => {
          await keeper.left();
          held = await (await opening).acquire(id);
          if (!held) return { problems: [{ path: '', message: 'It is not kept here any more. Open its file instead.' }] };
          const reading = comingFrom(held.piece.document, await keeper.filesOf(held));
          return 'problems' in reading ? reading : { ...reading, readOnly: held.readOnly ?? (held.role === 'reader' ? 'another-tab' : null) };
        };
        const opened = await open('the piece', 'The piece can’t be opened', bring, () => {
          newerText = null;
          keeper.hold(held!);
        });
        if (!opened && held && held !== keeper.held) await (held as HeldPiece).release();
      },
      startPiece(piece) {
        if (!piece.ok) {
          set({ refusal: piece.reason });
          return false;
        }
        const { file } = piece;
        void open('a new piece', 'The new piece can’t be started', async () => ({ document: file, files: new Map(), readOnly: null }), begin({ name: file.name ?? '' }, true));
        return true;
      },
      async refreshRecents() {
        set({ recents: await recentPieces(opening, () => keeper.held?.piece.id) });
      },
      keptPiece: (id) => keptPiece(opening, id),
      async forgetRecent(id) {
        if (keeper.held?.piece.id === id) return;
        await (await opening).forget(id).catch((error: unknown) => get().tellTrouble('The piece can’t be forgotten', messageOf(error)));
        await get().refreshRecents();
      },
      async rememberRecent(id) {
        await (await opening).remember(id).catch((error: unknown) => get().tellTrouble('The piece can’t be brought back', messageOf(error)));
        await get().refreshRecents();
      },
      async snapshots() {
        snapshots = (await keeper.held?.snapshots().catch(() => [])) ?? [];
        return snapshots.map(({ at }) => ({ at }));
      },
      async restore({ at }) {
        const snapshot = snapshots.find((one) => one.at === at);
        const { held } = keeper;
        if (!snapshot || !held || mayEdit() === null) return;
        void held.restore(snapshot, 'back to an earlier state');
        giveFiles(new Map([...get().files, ...(await keeper.filesOf(held))]));
        show(keeper.document!, false);
        onKept();
      },
      cancelReading() {
        set({ reading: null, lookedAt: null });
        if (!adding.busy && get().opening === null) set({ deriving: false });
        adding.stop();
        deriver.cancel();
      },
      tellTrouble: (title, message) => set({ trouble: { title, problems: [{ path: '', message }], unchanged: false } }),
      dismissTrouble: () => set({ trouble: null }),
      dismissNotices: () => keeping?.dismiss(),
      retryKeeping: () => keeping?.retry(),
      async takeOver() {
        const { held } = keeper;
        if (!held) return;
        await held.takeOver().catch((error: unknown) => get().tellTrouble('The piece can’t be taken over', messageOf(error)));
        if (held.role === 'editor') await follow(keeper.document!);
        onKept();
      },
      async packed(kind) {
        const { document, files } = get();
        const sceneText = newerText ?? `${JSON.stringify(document, null, 2)}\n`;
        const contentHash = await sha256(new TextEncoder().encode(sceneText));
        const { held } = keeper;
        const step = held?.piece.step;
        const done = (fileName: string) => {
          if (held && held.role === 'editor' && !held.readOnly) void keeping?.markSaved(held, fileName, contentHash, step);
        };
        if (kind === 'scene') return { blob: new Blob([sceneText], { type: 'application/json' }), done };
        const paths = [...new Set(linksOf(document).map(({ path }) => path))].filter((path) => files.has(path));
        const answer = await deriver.ask<'pack'>({ kind: 'pack', sceneText, paths });
        if (!answer.ok) throw new Error(answer.problems.map(({ message }) => message).join(' '));
        return { blob: answer.value, done };
      },
      ...pieceAnswers(deriver, get, set),
    };
  });

  return Object.assign(store, {
    async start() {
      const opened = await opening;
      const recents = await opened.recents().catch(() => []);
      const remembered = rememberedPiece(memories);
      const id = recents.find((one) => one.id === remembered)?.id ?? recents[0]?.id;
      if (id) await store.getState().openRecent(id);
      if (store.getState().document !== null) return;
      const { trouble } = store.getState();
      await store.getState().openDemo('mill-pond');
      if (trouble) store.setState({ trouble });
    },
  });
}

const DEMO_NAMES: Readonly<Record<DemoName, string>> = { 'mill-pond': 'Mill pond, evening', 'rock-pool': 'Rock pool' };

const stepOf = (label: string | null) => (label === null ? null : { label });

function keptState(keeper: PieceKeeper, keeping: Keeping | null): KeptState {
  const { held, queued } = keeper;
  const status = keeping?.status;
  const trouble = status?.trouble ?? null;
  const notices = status?.notices ?? [];
  if (!held) return { ...UNTOUCHED, state: queued > 0 ? 'keeping' : 'untouched', trouble, notices };
  const state = status?.state === 'failing' ? 'failing' : queued > 0 || status?.state === 'keeping' ? 'keeping' : 'kept';
  const { unsaved, savedToFile } = held.piece;
  return { state, trouble, notices, unsaved, fileName: savedToFile?.fileName ?? null };
}
