/** Every pour in order, with reason, amounts and wait; findings on top, the usual cautions below. */
import { useId, useMemo } from 'react';
import { haltsFor } from '../../core/plan/halts.ts';
import { isUndated } from '../../core/plan/undated.ts';
import { divisionDigits, fixed } from '../../core/units/format.ts';
import { dayAndTime } from '../../core/units/when.ts';
import { haltedPours } from '../../store/findings.ts';
import { ledgerOf } from '../../store/ledger.ts';
import type { Derived } from '../../store/piece-state.ts';
import { tintedPours } from '../../store/drawn.ts';
import { waitsOf } from '../../store/waits.ts';
import { FirstDay } from '../card/FirstDay.tsx';
import { AboutHeat } from '../heat/AboutHeat.tsx';
import { Hatches } from '../gauge/hatches.tsx';
import { useDerived, usePiece } from '../shared/piece.ts';
import { NARROW_PX, useViewport } from '../shared/viewport.ts';
import { useWords } from '../shared/words.ts';
import { ClassLines } from './ClassLines.tsx';
import { FindingCard } from './FindingCard.tsx';
import { FinishList } from './FinishList.tsx';
import { KitsAndCost } from './KitsAndCost.tsx';
import { OtherGoals } from './OtherGoals.tsx';
import { inAllWords, PourRow, Volume } from './PourRow.tsx';
import { PourSteps } from './PourSteps.tsx';
import { PourTogether } from './together/PourTogether.tsx';
import { totalShown, VOLUME_WORDS } from './volumes.ts';
import { WaitLegend, WaitPatterns } from './WaitStrip.tsx';
import { WhatIf } from './WhatIf.tsx';

/** How long the longest strip is, px. */
const STRIP_PX = { wide: 330, narrow: 196 } as const;

export function PoursScreen() {
  const shown = useDerived();
  const { scene, plan } = shown;
  const chosen = usePiece((state) => state.chosenPour);
  const choosePour = usePiece((state) => state.choosePour);
  const { widthPx } = useViewport();
  const prefix = useId();
  const derived = useMemo(() => derive(shown), [shown]);
  const { halted, ledger, waits, tinted, names, longestMin } = derived;
  const pxPerMin = STRIP_PX[widthPx < NARROW_PX ? 'narrow' : 'wide'] / longestMin;
  const digits = divisionDigits(scene.bench.scaleG);
  const words = useWords();
  const volumeUnit = usePiece((state) => state.units.volume);
  const unit = VOLUME_WORDS[volumeUnit];
  const rows = [...ledger.rows.values()];
  const undated = isUndated(plan);
  const copies = plan.copies > 1 ? ` for ${plan.copies} copies (net is one’s)` : '';
  return (
    <div className="pours">
      <svg width="0" height="0" className="patterns" aria-hidden="true"><Hatches prefix={prefix} /></svg>
      <WaitPatterns prefix={prefix} />
      <h2>{halted.has(1) ? 'Do not pour yet' : undated ? 'No first day set' : `First pour ${dayAndTime(plan.pours[0].starts)}`}</h2>
      {undated && <div className="undated"><FirstDay /></div>}
      <FindingCard names={names} />
      <ClassLines names={names} />
      <PourSteps />
      <div className="ledger-head">
        <WaitLegend prefix={prefix} />
        <p className="columns" aria-hidden="true">
          <span>net<br />{unit}</span><span>mix<br />{unit}</span><span>part A (resin)<br />g</span><span>part B (hardener)<br />g</span>
        </p>
      </div>
      <ol className="pour-list">
        {plan.pours.map((pour, i) => (
          <PourRow
            key={pour.index}
            pour={pour}
            scene={scene}
            next={plan.pours[i + 1]}
            steps={plan.steps}
            formula={scene.formulas.get(pour.formula)?.name ?? pour.formula}
            amounts={ledger.rows.get(pour.index) ?? null}
            halts={haltsFor(plan.findings, pour.index)}
            wait={waits[i]}
            pxPerMin={pxPerMin}
            scaleG={scene.bench.scaleG}
            volumeUnit={volumeUnit}
            names={names}
            keep={scene.mold.keep}
            finish={plan.finish}
            meeting={plan.class}
            chosen={chosen === pour.index}
            tinted={tinted.has(pour.index)}
            onChoose={() => choosePour(chosen === pour.index ? null : pour.index)}
            prefix={prefix}
          />
        ))}
      </ol>
      {ledger.rows.size > 0 && (
        <div className="in-all">
          <p><b>In all</b>{copies}{halted.size > 0 ? ', without what must not be poured' : `${copies && ','} ${inAllWords(plan.mold.fillVolumeMl, derived.displacedMl, derived.counts, words)}`}</p>
          <dl className="amounts">
            <div><dt>net {unit}</dt><dd><Volume {...totalShown(rows.map(({ netMl }) => netMl), volumeUnit)} /></dd></div>
            <div><dt>mix {unit}</dt><dd><Volume {...totalShown(rows.map(({ mixMl }) => mixMl), volumeUnit)} /></dd></div>
            <div><dt>part A <span className="which">(resin) </span>g</dt><dd>{fixed(ledger.total.partAG, digits)}</dd></div>
            <div><dt>part B <span className="which">(hardener) </span>g</dt><dd>{fixed(ledger.total.partBG, digits)}</dd></div>
          </dl>
        </div>
      )}
      <OtherGoals />
      <WhatIf />
      <PourTogether />
      <AboutHeat />
      <FinishList />
      <KitsAndCost />
      <details className="cautions">
        <summary>Cautions</summary>
        <ul>{plan.cautions.map((caution) => <li key={caution}>{words.planned(caution)}</li>)}</ul>
      </details>
    </div>
  );
}

function derive({ scene, plan }: Derived) {
  const halted = haltedPours(plan);
  const waits = waitsOf(plan);
  // What beds fill below the first layer is no part of any pour, and missing from the water all the same.
  const displacedMl = plan.mold.fillVolumeMl - plan.pours.reduce((sum, pour) => sum + pour.netMl, 0);
  const solids = scene.placements.flatMap(({ kind }) => (kind === 'plane' ? [] : [kind]));
  const counts = (['bed', 'figure'] as const).flatMap((kind) => {
    const count = solids.filter((one) => one === kind).length;
    return count === 0 ? [] : [count === 1 ? `the ${kind}` : `the ${kind}s`];
  });
  return {
    halted,
    waits,
    ledger: ledgerOf(plan, halted),
    tinted: tintedPours(scene, plan),
    names: scene.placements.map(({ name }) => name),
    longestMin: Math.max(60, ...waits.map(({ fromMin, toMin, tacky }) => Math.max(toMin, tacky?.toMin ?? 0) - fromMin)),
    displacedMl,
    counts,
  };
}
