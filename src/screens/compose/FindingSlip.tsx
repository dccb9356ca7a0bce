/** One finding at a time, halts first, with the way to what it is about and its mechanical remedy as one press. */
import { useMemo } from 'react';
import { remedyFor } from '../../core/scene/edit/remedies.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { thing } from '../../core/scene/edit/things.ts';
import { counted, listed } from '../../core/units/format.ts';
import { markedPours } from '../../store/findings.ts';
import type { Derived } from '../../store/piece-state.ts';
import { SEVERITY_WORDS } from '../card/CardParts.tsx';
import { FirstDay } from '../card/FirstDay.tsx';
import { FirstLines } from '../shared/FirstLines.tsx';
import { Rich } from '../shared/Rich.tsx';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { subjectIds } from './finding-subject.ts';
import { useComposeUi } from './ui.ts';

/** Findings whose way out has numbers worth reading before it is pressed. */
const TOLD: ReadonlySet<string> = new Set(['hot', 'near-runaway', 'cup-hot']);

export function FindingSlip({ file, derived }: { readonly file: SceneFile; readonly derived: Derived }) {
  const { plan, scene, solids } = derived;
  const at = usePiece((state) => state.findingAt);
  const showFinding = usePiece((state) => state.showFinding);
  const select = usePiece((state) => state.select);
  const choosePour = usePiece((state) => state.choosePour);
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  const refusal = usePiece((state) => state.refusal);
  const holdLine = useComposeUi((ui) => ui.holdLine);
  const showFormula = useComposeUi((ui) => ui.showFormula);
  const finding = plan.findings[Math.min(at, plan.findings.length - 1)];
  const { said, planned } = useWords();
  const bounds = useMemo(() => new Map(solids.map(({ id, bounds: box }) => [id, box])), [solids]);
  const remedy = useMemo(() => (finding ? remedyFor(finding, file, plan, bounds) : null), [finding, file, plan, bounds]);
  if (!finding) return null;
  const { severity, message, remedy: words } = finding;
  const count = plan.findings.length;
  const pours = [...markedPours(plan, finding)];
  const about = subjectIds(finding, plan, (id) => thing(file, id) !== undefined);
  const formula = /^formula (.+)$/.exec(finding.subject)?.[1];
  const names = scene.placements.map(({ name }) => name);
  const showIt = (): void => {
    holdLine(null);
    select(about);
    if (formula !== undefined) showFormula(formula);
    choosePour(pours[0] ?? null);
  };
  const points = about.length > 0 || pours.length > 0 || formula !== undefined;
  return (
    <section className={`finding-slip finding-${severity}`} aria-label="Findings">
      <div aria-live="polite">
        <p className="finding-head">
          <span className={`mark mark-${severity}`}>{SEVERITY_WORDS[severity]}</span>
          {pours.length > 0 && <span className="soft">{pours.length === 1 ? 'pour' : 'pours'} {listed(pours.map(String))}</span>}
          <span className="soft finding-count">{count === 1 ? 'the only one' : `${Math.min(at, count - 1) + 1} of ${counted(count, 'finding')}`}</span>
        </p>
        <FirstLines key={message}>
          <p className="finding-message"><Rich text={message} names={names} /></p>
          {(remedy === null || readOnly || TOLD.has(finding.code)) && <p className="soft"><Rich text={words} names={names} /></p>}
        </FirstLines>
      </div>
      {(finding.code === 'start-assumed' || finding.code === 'start-latest') && <FirstDay />}
      <p className="finding-actions">
        {remedy && !readOnly && <button type="button" className="button" title={planned(words)} onClick={() => edit((before) => remedy.apply(before))}>{planned(remedy.words)}</button>}
        {points && <button type="button" className="link" onClick={showIt}>Show it</button>}
        {count > 1 && (
          <>
            <button type="button" className="link" aria-disabled={at === 0} onClick={() => showFinding(at - 1)}>Previous<span className="hidden"> finding</span></button>
            <button type="button" className="link" aria-disabled={at >= count - 1} onClick={() => showFinding(at + 1)}>Next<span className="hidden"> finding</span></button>
          </>
        )}
      </p>
      {refusal && <p role="alert" className="problem">{said(refusal)}</p>}
    </section>
  );
}
