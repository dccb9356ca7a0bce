/**
 * Every way to work at a bench on a grid of whole hours, tried one by one: pieces with their pours and paintings, one thing at
 * a time, pours of one key at once where one likes. Written from the rules alone; it shares nothing with the planner.
 * Times are hours; every piece of work takes one.
 */

export interface BrutePour {
  readonly key: string;
  readonly opensH: number;
  readonly closesH: number;
  readonly scuffableH: number;
  readonly paintableH: number;
  readonly demoldH: number;
  /** Painted on top of it, then dry for so long; null: not. */
  readonly dryH: number | null;
}

export interface BruteBench {
  /** Open from the first hour of every day for so many. */
  readonly hoursADay: number;
  readonly pieces: readonly (readonly BrutePour[])[];
  /** Nothing is finished later. */
  readonly latestH: number;
}

export interface BruteEnd {
  readonly pours: number;
  readonly finishH: number;
}

interface Progress {
  readonly pour: number;
  readonly painted: boolean;
  /** When the last pour began; null: none yet. */
  readonly lastH: number | null;
  readonly dryAtH: number;
}

/** The fewest pours at the bench, and the earliest end with so many; null where none ends in time. */
export function bruteBench({ hoursADay, pieces, latestH }: BruteBench): BruteEnd | null {
  const known = new Map<string, readonly BruteEnd[]>();
  const isOpen = (hour: number) => hour >= 0 && ((hour % 24) + 24) % 24 < hoursADay;
  const fits = (hour: number, length: number) => isOpen(hour) && isOpen(hour + length - 1) && Math.floor(hour / 24) === Math.floor((hour + length - 1) / 24);
  const done = (piece: number, progress: Progress) => progress.pour === pieces[piece].length && !needsPaint(piece, progress);
  const needsPaint = (piece: number, { pour, painted }: Progress) => pour > 0 && !painted && pieces[piece][pour - 1].dryH !== null;

  /** How a piece may be poured on at an hour; null: not. */
  const joint = (piece: number, progress: Progress): { wet: boolean; from: number; to: number } | null => {
    if (progress.pour === pieces[piece].length || needsPaint(piece, progress)) return null;
    if (progress.lastH === null) return { wet: true, from: 0, to: Infinity };
    if (progress.painted) return { wet: true, from: progress.dryAtH, to: Infinity };
    const below = pieces[piece][progress.pour - 1];
    const opens = progress.lastH + 1 + below.opensH;
    const closes = progress.lastH + below.closesH;
    for (let hour = opens; hour + 1 <= closes; hour++) if (isOpen(hour)) return { wet: true, from: opens, to: closes - 1 };
    return { wet: false, from: progress.lastH + 1 + below.scuffableH, to: Infinity };
  };

  const ends = (hour: number, state: readonly Progress[], sofar: number): readonly BruteEnd[] => {
    if (state.every((progress, piece) => done(piece, progress))) return [{ pours: 0, finishH: sofar }];
    if (hour > latestH) return [];
    const key = JSON.stringify([hour, state, sofar]);
    const found = known.get(key);
    if (found) return found;
    const all: BruteEnd[] = [];
    if (isOpen(hour)) {
      state.forEach((progress, piece) => {
        if (!needsPaint(piece, progress)) return;
        const below = pieces[piece][progress.pour - 1];
        const ready = progress.lastH! + 1 + Math.max(below.scuffableH, below.paintableH);
        if (hour < ready || !fits(hour, 2)) return;
        const next = state.map((one, i) => (i === piece ? { ...one, painted: true, dryAtH: hour + 2 + below.dryH! } : one));
        const last = progress.pour === pieces[piece].length ? Math.max(sofar, hour + 2 + below.dryH!) : sofar;
        if (last <= latestH) all.push(...ends(hour + 2, next, last));
      });
      for (let set = 1; set < 2 ** pieces.length; set++) {
        const group = pieces.map((_pours, i) => i).filter((i) => (set >> i) & 1);
        const joints = group.map((piece) => joint(piece, state[piece]));
        if (joints.some((one) => one === null)) continue;
        if (new Set(group.map((piece) => pieces[piece][state[piece].pour].key)).size > 1) continue;
        const scuffs = joints.filter((one) => !one!.wet).length;
        const at = hour + scuffs;
        if (!fits(hour, scuffs + 1)) continue;
        if (joints.some((one) => (one!.wet ? at < one!.from || at > one!.to : hour < one!.from))) continue;
        const next = state.map((one, i) => (group.includes(i) ? { pour: one.pour + 1, painted: false, lastH: at, dryAtH: 0 } : one));
        const last = Math.max(sofar, ...group.map((piece) => at + 1 + pieces[piece][state[piece].pour].demoldH));
        if (last <= latestH) all.push(...ends(at + 1, next, last).map((end) => ({ ...end, pours: end.pours + 1 })));
      }
    }
    all.push(...ends(hour + 1, state, sofar));
    const best = pareto(all);
    known.set(key, best);
    return best;
  };

  const all = ends(0, pieces.map(() => ({ pour: 0, painted: false, lastH: null, dryAtH: 0 })), 0);
  return all.length === 0 ? null : all.reduce((a, b) => (b.pours < a.pours || (b.pours === a.pours && b.finishH < a.finishH) ? b : a));
}

function pareto(all: readonly BruteEnd[]): BruteEnd[] {
  return all.filter((one, i) => !all.some((other, j) => other.pours <= one.pours && other.finishH <= one.finishH && (other.pours < one.pours || other.finishH < one.finishH || j < i)));
}
