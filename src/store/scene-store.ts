/**
 * The page's one state: the scene shown with its plan, what is being opened, what went wrong, what is chosen.
 * All else is derived from it. A scene that can't be opened leaves the one shown as it was; of several openings the last wins.
 */
import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Problem } from '../core/scene/read.ts';
import type { Paper, SheetDocument } from '../core/sheet/document.ts';
import { sectionOf, type Section } from '../core/sheet/section.ts';
import type { GivenFile, PlannedScene, Planner } from '../work/protocol.ts';

export interface Trouble {
  /** What could not be done, as a heading. */
  readonly title: string;
  readonly problems: readonly Problem[];
}

export type Sheet =
  | { readonly kind: 'none' }
  | { readonly kind: 'making' }
  | { readonly kind: 'ready'; readonly document: SheetDocument }
  | { readonly kind: 'failed' };

export interface ShownScene extends PlannedScene {
  readonly section: Section;
}

export interface SceneState {
  readonly shown: ShownScene | null;
  /** What is being opened, by name; null when nothing is. */
  readonly opening: string | null;
  readonly trouble: Trouble | null;
  /** Number of the pour that is chosen. */
  readonly chosenPour: number | null;
  /** Which finding is shown, from 0. */
  readonly findingAt: number;
  readonly paper: Paper;
  readonly sheet: Sheet;
  readonly savingPdf: boolean;

  openDemo(): Promise<void>;
  /** `read` gives the files' bytes; a file that can't be read rejects it. */
  openFiles(name: string, read: () => Promise<readonly GivenFile[]>): Promise<void>;
  dismissTrouble(): void;
  /** The same pour again chooses none. */
  choosePour(pour: number): void;
  showFinding(at: number): void;
  setPaper(paper: Paper): void;
  /** Lays the sheet out if it isn't yet. */
  makeSheet(): Promise<void>;
  /** The sheet as a PDF, or null with the trouble told. */
  makePdf(): Promise<Uint8Array | null>;
}

export type SceneStore = StoreApi<SceneState>;

export function createSceneStore(planner: Planner): SceneStore {
  let lastOpening = 0;
  return createStore<SceneState>()((set, get) => {
    const open = async (name: string, title: string, read: () => Promise<readonly GivenFile[] | null>) => {
      const opening = ++lastOpening;
      set({ opening: name, trouble: null });
      const answer = await read().then(
        (files) => planner.load(files),
        (error: unknown) => ({ ok: false as const, problems: [{ path: '', message: unreadable(name, error) }] }),
      );
      if (opening !== lastOpening) return;
      if (!answer.ok) {
        set({ opening: null, trouble: { title, problems: answer.problems } });
        return;
      }
      const { scene, plan, silhouettes } = answer.value;
      const section = sectionOf({ scene, pours: plan.pours, silhouettes });
      set({ opening: null, trouble: null, shown: { ...answer.value, section }, chosenPour: null, findingAt: 0, sheet: { kind: 'none' } });
    };
    return {
      shown: null,
      opening: null,
      trouble: null,
      chosenPour: null,
      findingAt: 0,
      paper: 'a4',
      sheet: { kind: 'none' },
      savingPdf: false,

      openDemo: () => open('the demo scene', 'The demo scene can’t be opened', async () => null),
      openFiles: (name, read) => open(name, `${name} can’t be opened`, read),
      dismissTrouble: () => set({ trouble: null }),
      choosePour: (pour) => set({ chosenPour: get().chosenPour === pour ? null : pour }),
      showFinding: (at) => set({ findingAt: Math.min(Math.max(at, 0), Math.max(0, (get().shown?.plan.findings.length ?? 0) - 1)) }),
      setPaper: (paper) => {
        if (paper !== get().paper) set({ paper, sheet: { kind: 'none' } });
      },
      async makeSheet() {
        const { shown, paper, sheet } = get();
        if (!shown || sheet.kind !== 'none') return;
        set({ sheet: { kind: 'making' } });
        const answer = await planner.sheet(sent(shown), paper);
        if (get().shown !== shown || get().paper !== paper) return;
        if (answer.ok) set({ sheet: { kind: 'ready', document: answer.value } });
        else set({ sheet: { kind: 'failed' }, trouble: { title: 'The build sheet can’t be laid out', problems: answer.problems } });
      },
      async makePdf() {
        const { shown, paper, savingPdf } = get();
        if (!shown || savingPdf) return null;
        set({ savingPdf: true, trouble: null });
        const answer = await planner.pdf(sent(shown), paper);
        set({ savingPdf: false });
        if (answer.ok) return answer.value;
        set({ trouble: { title: 'The PDF can’t be written', problems: answer.problems } });
        return null;
      },
    };
  });
}

/** Without the section, which is derived again where it is needed. */
function sent({ scene, document, plan, silhouettes }: ShownScene): PlannedScene {
  return { scene, document, plan, silhouettes };
}

function unreadable(name: string, error: unknown): string {
  const reason = error instanceof Error ? error.message : String(error);
  return `${name} can’t be read (${reason}). Is it a folder, or was it moved? Drop the files themselves.`;
}
