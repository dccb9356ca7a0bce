/** What must hold of every label, by its seed; null where it does, else what was found. */
import { momentAfter } from '../../../src/core/cure/equivalent-time.ts';
import { familyOf } from '../../../src/core/cure/family.ts';
import type { CureFamily } from '../../../src/core/cure/family-types.ts';
import type { BuildPour, PourVerdict } from '../../../src/core/cure/verdict-types.ts';
import { tightened, type MovableTimes } from '../../../src/core/cure/windows.ts';
import type { Formula, Room } from '../../../src/core/scene/scene.ts';
import { judgeBuild } from './judged.ts';
import { drawnLabel, ownMold } from './random-labels.ts';

/** Of the label's depth: what the solver's own tenth of a kelvin is worth next to the cliff. */
const FOUND_SHARE = 0.995;

export function labelFlaw(seed: number): string | null {
  const family = familyOf(drawnLabel(seed).label);
  return ownSituationFlaw(seed, family) ?? looserThanLabel(seed, family);
}

/** The label's own situation and depth, solved (walls a hair thicker than the label's, so that nothing is taken as known). */
function ownSituationFlaw(seed: number, family: CureFamily): string | null {
  const { label } = drawnLabel(seed);
  const room: Room = { temperatureC: label.atC, profile: [] };
  const pours = [{ fromMin: 0, depthMm: label.maxDepthMm, formula: label, family }];
  const [known] = judgeBuild({ mold: ownMold(), room, pours });
  const [solved] = judgeBuild({ mold: { ...ownMold(), wallMm: 8.7501 }, room, pours });
  if (known.harsher) return 'harsher than itself';
  for (const [verdict, least] of [[known, 1], [solved, FOUND_SHARE]] as const) {
    if (!(verdict.safeDepthMm >= least * label.maxDepthMm)) return `safe to ${verdict.safeDepthMm} of ${label.maxDepthMm} mm`;
    if (verdict.words === 'hot') return `hot: ${verdict.rangeC.join(' to ')} °C`;
  }
  return null;
}

/** A build in any mold and room: depths, windows and numbers. */
function looserThanLabel(seed: number, family: CureFamily): string | null {
  const { label, mold, room, depthShares, waitsH } = drawnLabel(seed);
  let fromMin = 0;
  const pours: BuildPour[] = depthShares.map((share, i) => {
    const pour = { fromMin, depthMm: share * label.maxDepthMm, formula: label, family };
    fromMin += 60 * waitsH[i];
    return pour;
  });
  const verdicts = judgeBuild({ mold, room, pours });
  for (const [i, verdict] of verdicts.entries()) {
    const flaw = flawOf(verdict, { label, room, pour: pours[i] });
    if (flaw) return `pour ${i + 1}: ${flaw}`;
  }
  return null;
}

function flawOf(verdict: PourVerdict, { label, room, pour }: { label: Formula; room: Room; pour: BuildPour }): string | null {
  const { rangeC, safeDepthMm, afterH, tooWarmRoomC, windows, bubbles, softens } = verdict;
  for (const value of [...rangeC, safeDepthMm, afterH, tooWarmRoomC, bubbles.smallestMm, softens.fromC, softens.toC]) if (!Number.isFinite(value)) return `not a number in ${JSON.stringify(verdict)}`;
  if (rangeC[0] > rangeC[1]) return `range the wrong way: ${rangeC.join(' to ')} °C`;
  if (safeDepthMm > label.maxDepthMm || safeDepthMm < 0) return `safe to ${safeDepthMm} of ${label.maxDepthMm} mm`;
  const at = (hours: number) => momentAfter(room, pour.fromMin, hours, label.atC);
  const times: MovableTimes = { opens: at(label.bondOpensH), closes: at(label.bondClosesH), scuffable: at(label.scuffableH), paintable: at(label.paintableH), demold: at(label.demoldH) };
  const moved = tightened(times, windows);
  if (moved.closes > times.closes) return `closes ${moved.closes - times.closes} min later`;
  for (const key of ['opens', 'scuffable', 'paintable', 'demold'] as const) if (moved[key] < times[key]) return `${key} ${times[key] - moved[key]} min sooner`;
  return null;
}
