/** A look at the heat in three dimensions: runs in a thread of its own, can be stopped, and never makes the plan less careful. */
import { useEffect, useMemo, useRef, useState } from 'react';
import type { BodyHeat } from '../../core/cure/body/body.ts';
import type { Plan } from '../../core/plan/plan.ts';
import type { Mold, Scene } from '../../core/scene/scene.ts';
import { HeatClient, type HeatJob } from '../../work/heat-client.ts';
import { Rich } from '../shared/Rich.tsx';
import { useDerived, usePieceStore } from '../shared/piece.ts';
import { NARROW_PX, useViewport } from '../shared/viewport.ts';
import { closerFigures, closerPours, type CloserPour } from './closer-words.ts';
import { sliceHatch } from './slice-hatch.ts';

type Look =
  | { readonly kind: 'none' }
  | { readonly kind: 'looking'; readonly share: number }
  | { readonly kind: 'seen'; readonly heat: BodyHeat; readonly hottestC: readonly number[]; readonly scene: Scene; readonly plan: Plan }
  | { readonly kind: 'said'; readonly words: string };

const NO_NAMES: readonly string[] = [];
/** °C at the hottest point; over it a pour is too hot (what labels are anchored on). */
const CONCERN_C = 60;

export function CloserLook() {
  const store = usePieceStore();
  const { scene, plan, checkingHeat } = useDerived();
  const [look, setLook] = useState<Look>({ kind: 'none' });
  const client = useRef<HeatClient | null>(null);
  const job = useRef<HeatJob | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    heading.current?.focus();
    return () => client.current?.dispose();
  }, []);
  const start = async (): Promise<void> => {
    setLook({ kind: 'looking', share: 0 });
    const told = await store.getState().heatTask();
    if (!told?.task) {
      setLook({ kind: 'said', words: told ? 'There is nothing in it to follow the heat of.' : 'The heat of this piece can’t be followed now. Try again in a moment.' });
      return;
    }
    client.current ??= new HeatClient();
    job.current = client.current.solve(told.task, ({ atS, endS }) => setLook({ kind: 'looking', share: atS / endS }));
    const answer = await job.current.answer;
    job.current = null;
    setLook(answer.ok ? { kind: 'seen', heat: answer.heat, hottestC: told.hottestC, scene, plan } : { kind: 'said', words: answer.message });
  };
  const stale = look.kind === 'seen' && look.plan !== plan;
  return (
    <div className="closer-look">
      <h3 ref={heading} tabIndex={-1}>In three dimensions</h3>
      <p className="soft">With walls, bench, air and figures, for a resin from the middle of what each label allows. It takes some seconds. What is warmer than the plan reckons is said; the plan is never loosened by it.</p>
      {look.kind === 'looking' ? (
        <p>
          <progress value={look.share} max={1} aria-label="Following the heat" />{' '}
          <button type="button" className="button" onClick={() => job.current?.cancel()}>Stop</button>
        </p>
      ) : (
        <button type="button" className="button" aria-disabled={checkingHeat} onClick={() => { if (!checkingHeat) void start(); }}>{look.kind === 'seen' ? 'Look again' : 'Look'}</button>
      )}
      <p role="status" className="soft">{look.kind === 'said' ? look.words : look.kind === 'looking' ? `Following the heat of every pour: ${Math.round(look.share * 20) * 5} %.` : stale ? 'The piece has changed since this look.' : look.kind === 'seen' ? 'Done.' : ''}</p>
      {look.kind === 'seen' && <Seen {...look} />}
    </div>
  );
}

function Seen({ heat, hottestC, scene, plan }: Extract<Look, { kind: 'seen' }>) {
  const { widthPx } = useViewport();
  const pours = useMemo(() => closerPours(scene, plan, heat, hottestC), [scene, plan, heat, hottestC]);
  const figures = useMemo(() => closerFigures(scene, heat), [scene, heat]);
  const warmer = pours.filter(({ warmerK, rangeC }) => warmerK >= 1 && rangeC[1] > CONCERN_C);
  return (
    <>
      {warmer.length > 0 && <p><b>Warmer than the plan reckons, over {CONCERN_C}{'\u00a0'}°C.</b> Keep the room cooler, or set a stop lower so that {warmer.length === 1 ? `pour ${warmer[0].pour.index} gets` : 'these pours get'} thinner.</p>}
      <ul className="closer-pours">
        {pours.map((one) => (
          <li key={one.pour.index}>
            <p><b>Pour {one.pour.index}.</b> <Rich text={one.words} names={NO_NAMES} /></p>
            <Slice one={one} heat={heat} scene={scene} widthPx={widthPx < NARROW_PX ? 246 : 460} />
          </li>
        ))}
        {figures.map(({ name, over, words }) => <li key={name}><i>{name}</i>{over && <> <span className="mark mark-caution">caution</span></>} gets to {words}.</li>)}
      </ul>
      {heat.stuckAtS !== null && <p>The resin ran away in this reckoning and it could not be followed further.</p>}
    </>
  );
}

function Slice({ one, heat, scene, widthPx }: { readonly one: CloserPour; readonly heat: BodyHeat; readonly scene: Scene; readonly widthPx: number }) {
  const { slice } = heat.pours[one.pour.index - 1];
  const hatch = useMemo(() => slice && sliceHatch(slice, { halfMm: halfWidthMm(scene.mold, one.pour.toMm), topMm: one.pour.toMm, widthPx, heightPx: 200 }), [slice, scene, one, widthPx]);
  if (!hatch) return null;
  const { widthPx: wide, heightPx: high, path } = hatch;
  const joint = high * (1 - one.pour.fromMm / one.pour.toMm);
  return (
    <svg width={wide + 2} height={high + 2} viewBox={`-1 -1 ${wide + 2} ${high + 2}`} role="img" aria-label={`Upright slice through the middle when pour ${one.pour.index} is warmest: the closer the lines, the warmer. ${one.words}`}>
      <path d={path} className="heat-hatch" />
      {one.pour.fromMm > 0 && <path d={`M0 ${joint}H${wide}`} className="heat-joint" />}
      <rect x="0" y="0" width={wide} height={high} className="heat-axis" />
    </svg>
  );
}

/** From its middle to its wall along x, at a height. */
function halfWidthMm(mold: Mold, atMm: number): number {
  return (mold.shape === 'round' ? mold.diameterMm : mold.lengthMm) / 2 + atMm * Math.tan((mold.draftDeg * Math.PI) / 180);
}
