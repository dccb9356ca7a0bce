/** What the worker is asked about the open piece beside its plan: sheet, templates, other plans of it, heat. */
import type { Paper } from '../core/sheet/document.ts';
import type { Answer, Kind, RequestOf } from '../work/protocol.ts';
import type { PieceDeriver } from './piece-deriving.ts';
import type { Derived, PieceState } from './piece-state.ts';

/** Where people print on Letter (CLDR paper sizes, from memory); everywhere else on A4. */
const LETTER_REGIONS = ['US', 'CA', 'MX', 'PH', 'CL', 'CO', 'GT', 'PA', 'CR', 'DO', 'SV', 'NI', 'VE', 'PR'];

/** By the browser's language. */
export function usualPaper(): Paper {
  const region = typeof navigator === 'undefined' ? undefined : navigator.language?.split('-').find((part) => /^[A-Z]{2}$/.test(part));
  return region !== undefined && LETTER_REGIONS.includes(region) ? 'letter' : 'a4';
}

type Answers = Pick<PieceState, 'setPaper' | 'makeSheet' | 'makePdf' | 'makeTemplates' | 'compareGoals' | 'planWith' | 'heatSeries' | 'heatTask'>;

export function pieceAnswers(deriver: PieceDeriver, get: () => PieceState, set: (change: Partial<PieceState>) => void): Answers {
  /** What may be printed or looked into: not while its numbers are `about` right or its heat is being checked. */
  function atRest(): Derived | null {
    const { derived } = get();
    return derived && !derived.about && !derived.checkingHeat ? derived : null;
  }

  function printable(): Derived | null {
    return get().unplanned.length === 0 ? atRest() : null;
  }

  /** Its heat is no longer being checked. */
  function judged(): Pick<Derived, 'scene' | 'plan'> | null {
    const { derived } = get();
    return derived && !derived.checkingHeat ? { scene: derived.scene, plan: derived.plan } : null;
  }

  function told(title: string, { problems }: Answer<Kind> & { readonly ok: false }): null {
    set({ trouble: { title, problems, unchanged: false } });
    return null;
  }

  /** Whatever else is asked meanwhile goes first. Null where the piece moves on first, or is not at rest. */
  async function askedAtRest<K extends Kind>(requestOf: (derived: Derived) => RequestOf<K>): Promise<Answer<K> | null> {
    const derived = atRest();
    while (derived && get().derived === derived && !get().deriving) {
      const answer = await deriver.ask<K>(requestOf(derived));
      if (answer.ok || !answer.overtaken) return answer;
    }
    return null;
  }

  return {
    setPaper(paper) {
      if (paper !== get().paper) set({ paper, sheet: { kind: 'none' } });
    },
    async makeSheet() {
      const derived = printable();
      const { paper, units, sheet } = get();
      if (!derived || sheet.kind !== 'none') return;
      set({ sheet: { kind: 'making' } });
      const { scene, plan, silhouettes } = derived;
      const answer = await deriver.ask<'sheet'>({ kind: 'sheet', planned: { scene, plan, silhouettes }, paper, units });
      if (get().derived !== derived || get().paper !== paper || get().units !== units) return;
      set({ sheet: answer.ok ? { kind: 'ready', document: answer.value } : { kind: 'failed' } });
      if (!answer.ok) told('The build sheet can’t be laid out', answer);
    },
    async makePdf() {
      const derived = printable();
      const { paper, units, savingPdf } = get();
      if (!derived || savingPdf) return null;
      set({ savingPdf: true, trouble: null });
      const { scene, plan, silhouettes } = derived;
      const answer = await deriver.ask<'pdf'>({ kind: 'pdf', planned: { scene, plan, silhouettes }, paper, units });
      set({ savingPdf: false });
      return answer.ok ? answer.value : told('The PDF can’t be written', answer);
    },
    async makeTemplates() {
      const derived = printable();
      const { paper, units } = get();
      if (!derived) return null;
      set({ trouble: null });
      const { scene, plan } = derived;
      const answer = await deriver.ask<'templates'>({ kind: 'templates', planned: { scene, plan }, paper, units });
      return answer.ok ? answer.value : told('The templates can’t be drawn', answer);
    },
    async compareGoals() {
      const answer = await askedAtRest<'compare'>(({ scene }) => ({ kind: 'compare', scene }));
      return answer?.ok ? answer.value : null;
    },
    async planWith(document) {
      const answer = await askedAtRest<'what if'>(() => ({ kind: 'what if', document }));
      return answer?.ok === false && answer.canceled ? null : answer;
    },
    async heatSeries(pour) {
      const planned = judged();
      const answer = planned && (await deriver.ask<'heat series'>({ kind: 'heat series', planned, pour }));
      return answer?.ok ? answer.value : null;
    },
    async heatTask() {
      const planned = judged();
      const answer = planned && (await deriver.ask<'heat task'>({ kind: 'heat task', planned }));
      return answer?.ok ? answer.value : null;
    },
  };
}
