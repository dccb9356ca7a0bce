/**
 * Several pieces at one bench: each planned after the one before, then staggered so that pours fall together, planned again
 * at the times found, and checked. Where heat forbids a time or shared cups, that is learned and the stagger sought again;
 * where nothing is won, they stay one after the other.
 */
import { mixedAtC } from '../../cure/mixed-at.ts';
import type { Scene } from '../../scene/scene.ts';
import { MINUTES_PER_HOUR, parseLocalTime, upToMinute } from '../../units/time.ts';
import { doNotPour } from '../halts.ts';
import { compareInOrder } from '../in-order.ts';
import { planScene } from '../plan-scene.ts';
import type { Moves, Plan, PlanResult } from '../plan.ts';
import type { Given } from '../planning.ts';
import { NOTHING } from '../schedule.ts';
import { heldPlan, type HeldPour } from './hold.ts';
import { MOST_PIECES, notOneBench } from './one-bench.ts';
import { pieceOf, withMoves, type Piece } from './piece.ts';
import { lateOf, stagger, worth, type Staggered } from './stagger.ts';
import { togetherOf, totalsOf, workOf, type Together } from './together-plan.ts';
import type { PieceTurn } from './turns.ts';
import { sharedMix, shareOf, type Member, type SharedMix } from './visit.ts';

/** Each round learns what heat asks for; more than a few say that it will not hold. */
const MOST_ROUNDS = 6;

export interface TogetherPiece {
  readonly scene: Scene;
  readonly given: Omit<Given, 'telling' | 'held' | 'startMin' | 'compare'>;
}

type Refused = { readonly ok: false; /** Whose scene it is, from 0. */ readonly piece: number; readonly problems: Extract<PlanResult, { ok: false }>['problems'] };
export type TogetherResult = { readonly ok: true; readonly together: Together; readonly plans: readonly Plan[] } | Refused;

/** Plans pieces for one bench. `startMin` wins over the scenes’ own starts. Two pieces at least. */
export function planTogether(all: readonly TogetherPiece[], startMin?: number): TogetherResult {
  const scenes = all.map(({ scene }) => scene);
  if (all.length > MOST_PIECES) return refused(MOST_PIECES, '', `is scene ${MOST_PIECES + 1} of ${all.length}; expected at most ${MOST_PIECES} at once. Plan some of them another time.`);
  const inClass = scenes.findIndex((scene) => scene.class !== undefined);
  if (inClass >= 0) return refused(inClass, 'class', 'has a day of its own; expected none among pieces that are poured together. Plan this piece by itself, or take the class out.');
  const other = notOneBench(scenes);
  if (other) return refused(other.piece, other.path, other.message);
  const queue = oneAfterTheOther(all, startMin);
  if (!queue.ok) return queue;
  const { plans, begins } = queue;
  const alone = totalsOf(plans);
  const finishMin = plans.map(({ finish }) => parseLocalTime(finish)!);
  let pieces = scenes.map((scene, i) => pieceOf(scene, plans[i], { startMin: startMin ?? scene.bench.startMin ?? begins[0], mustBeByMin: scene.bench.readyByMin ?? Infinity }));
  const spoiled = new Set<string>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const shared = sharing(pieces, all, spoiled);
    const found = stagger(pieces, { latestMin: Math.max(...finishMin), shared });
    if (!found || !wins(pieces, found, worth({ ...alone, late: lateOf(pieces, finishMin), finishMin }))) break;
    const held = planHeld(all, pieces, { found, begins, shared });
    if (!held.ok) return held;
    const worse = newlyHalted(plans, held.plans);
    if (held.holds && worse.length === 0) return { ok: true, together: togetherOf(scenes, held.plans, { alone: plans, whole: found.whole }), plans: held.plans };
    pieces = pieces.map((piece, i) => withMoves(piece, held.moves[i]));
    for (const turn of found.turns) {
      if (turn.parts.length > 1 && turn.parts.some(({ piece, pour }) => worse.some((one) => one.piece === piece && one.pour === pour))) spoiled.add(keyOf(turn.parts as readonly Member[]));
    }
    if (held.holds && !found.turns.some(({ parts }) => parts.length > 1 && spoiled.has(keyOf(parts as readonly Member[])))) break;
  }
  return { ok: true, together: togetherOf(scenes, plans, { alone: plans, whole: true }), plans };
}

function wins(pieces: readonly Piece[], found: Staggered, alone: readonly number[]): boolean {
  return compareInOrder(worth({ ...found, late: lateOf(pieces, found.finishMin) }), alone) < 0;
}

/** Each piece from where the bench is done with the one before: its own plan, and what the stagger is held against. */
function oneAfterTheOther(all: readonly TogetherPiece[], startMin?: number): { readonly ok: true; readonly plans: Plan[]; readonly begins: number[] } | Refused {
  const plans: Plan[] = [];
  const begins: number[] = [];
  const starts = all.flatMap(({ scene }) => scene.bench.startMin ?? []);
  let freeMin = startMin ?? (starts.length > 0 ? Math.min(...starts) : undefined);
  for (const [piece, { scene, given }] of all.entries()) {
    const from = freeMin === undefined ? undefined : Math.max(freeMin, startMin ?? scene.bench.startMin ?? freeMin);
    const result = planScene(scene, { ...given, startMin: from });
    if (!result.ok) return { ok: false, piece, problems: result.problems };
    plans.push(result.plan);
    const work = workOf(result.plan);
    begins.push(from ?? work[0].fromMin);
    freeMin = upToMinute(Math.max(...work.map(({ kind, toMin }) => toMin + (kind === 'pour' ? scene.bench.watchH * MINUTES_PER_HOUR : 0))));
  }
  return { ok: true, plans, begins };
}

/** What pours share; worked out once for each group and warmth of the room. */
function sharing(pieces: readonly Piece[], all: readonly TogetherPiece[], spoiled: ReadonlySet<string>): (members: readonly Member[], startsMin: number) => SharedMix | null {
  const known = new Map<string, SharedMix | null>();
  return (members, startsMin) => {
    if (spoiled.has(keyOf(members))) return null;
    const key = `${keyOf(members)} ${mixedAtC(pieces[0].scene, startsMin)}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const judges = new Set(members.map(({ piece }) => (all[piece].scene.heatModel === 'label' ? null : all[piece].given.heat)));
    const made = sharedMix(pieces, members, { startsMin, judges: [...judges] });
    known.set(key, made);
    return made;
  };
}

const keyOf = (members: readonly Pick<Member, 'piece' | 'pour'>[]): string => members.map(({ piece, pour }) => `${piece}:${pour}`).sort().join(' ');

interface Held {
  readonly ok: true;
  readonly plans: Plan[];
  readonly moves: (readonly Moves[])[];
  /** Every time and window stood when it was judged again. */
  readonly holds: boolean;
}

interface HeldRequest {
  readonly found: Staggered;
  readonly begins: readonly number[];
  readonly shared: (members: readonly Member[], startsMin: number) => SharedMix | null;
}

/** The pieces’ plans at the times and from the cups that were found. */
function planHeld(all: readonly TogetherPiece[], pieces: readonly Piece[], { found, begins, shared }: HeldRequest): Held | Refused {
  const poured = found.turns.filter(({ pourMin }) => pourMin > 0);
  const plans: Plan[] = [];
  const moves: (readonly Moves[])[] = [];
  let holds = true;
  for (const [index, { scene, given }] of all.entries()) {
    const pours = poured.flatMap((turn, i): HeldPour[] => {
      const part = turn.parts.find(({ piece }) => piece === index);
      return part ? [{ startsMin: turn.startsMin, pourMin: turn.pourMin, route: part.route, before: part.surface, cups: cupsOf(turn.parts, index, i) }] : [];
    });
    const last = found.turns.flatMap(({ parts }) => parts.filter(({ piece }) => piece === index)).at(-1)!;
    const after = last.pour === null ? last.surface : NOTHING;
    const held = heldPlan({ pours, after, found: (moved, stands) => { moves[index] = moved; holds &&= stands; } });
    const result = planScene(scene, { ...given, startMin: begins[index], held });
    if (!result.ok) return { ok: false, piece: index, problems: result.problems };
    plans.push(result.plan);
  }
  return { ok: true, plans, moves, holds };

  function cupsOf(parts: readonly PieceTurn[], index: number, turn: number): HeldPour['cups'] {
    if (parts.length === 1) return null;
    const members = parts as readonly Member[];
    const mix = shared(members, poured[turn].startsMin)!;
    const molds = members.reduce((sum, { piece, pour }) => sum + pieces[piece].jobs[pour].molds, 0);
    const others = members.filter(({ piece }) => piece !== index).map(({ piece }) => pieces[piece].name);
    const { mixMl, mixG, batches } = mix.mixed;
    return { ...shareOf(mix, pieces, members, members.find(({ piece }) => piece === index)!), batches, shared: { pouring: turn + 1, with: others, molds, mixMl, mixG } };
  }
}

/** Pours that may not be poured at the times found, and could be one after the other. */
function newlyHalted(before: readonly Plan[], now: readonly Plan[]): Member[] {
  return now.flatMap((plan, piece) => plan.pours.flatMap(({ index }) => {
    const isNew = doNotPour(plan.findings, index) !== null && doNotPour(before[piece].findings, index) === null;
    return isNew ? [{ piece, pour: index - 1 }] : [];
  }));
}

function refused(piece: number, path: string, message: string): Refused {
  return { ok: false, piece, problems: [{ path, message }] };
}
