/** Findings one at a time, halts first, each with what to do; the one shown marks its pours on the gauge. */
import { useMemo } from 'react';
import { listed } from '../../core/units/format.ts';
import { markedPours } from '../../store/findings.ts';
import { SEVERITY_WORDS } from '../card/CardParts.tsx';
import { FirstDay } from '../card/FirstDay.tsx';
import { FirstLines } from '../shared/FirstLines.tsx';
import { Rich } from '../shared/Rich.tsx';
import { useDerived, usePiece } from '../shared/piece.ts';
import { UseChange } from './UseChange.tsx';

export function FindingCard({ names }: { readonly names: readonly string[] }) {
  const { plan } = useDerived();
  const at = usePiece((state) => state.findingAt);
  const showFinding = usePiece((state) => state.showFinding);
  const { findings } = plan;
  const finding = findings[at];
  const pours = useMemo(() => [...markedPours(plan, finding)], [plan, finding]);
  if (!finding) return null;
  const { code, severity, message, remedy } = finding;
  return (
    <section className={`finding finding-${severity}`} aria-label="Findings">
      <div className="finding-text" aria-live="polite">
        <p className="finding-head">
          <span className={`mark mark-${severity}`}>{SEVERITY_WORDS[severity]}</span>
          {pours.length > 0 && <span className="soft">{pours.length === 1 ? 'pour' : 'pours'} {listed(pours.map(String))}</span>}
        </p>
        <FirstLines key={message}>
          <p className="finding-message"><Rich text={message} names={names} /></p>
          <p className="finding-remedy"><Rich text={remedy} names={names} /></p>
        </FirstLines>
        {code === 'start-latest' && <FirstDay />}
        {finding.whatIf !== undefined && <UseChange change={finding.whatIf} />}
      </div>
      <div className="finding-steps">
        <span className="soft">{at + 1} of {findings.length}</span>
        <button type="button" className="button" aria-disabled={at === 0} onClick={() => showFinding(at - 1)}>Previous<span className="hidden"> finding</span></button>
        <button type="button" className="button" aria-disabled={at === findings.length - 1} onClick={() => showFinding(at + 1)}>Next<span className="hidden"> finding</span></button>
      </div>
    </section>
  );
}
