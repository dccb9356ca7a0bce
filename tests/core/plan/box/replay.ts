/** A plan with a curing box replayed by the checker's own clock, from the scene file and the plan alone: nothing here imports the planner. */
import { benchHours, firstFit, insideBench, minutesOf, roomPieces, textOf, whenProgressed, CLOCK_MIN, type Interval, type RoomPiece } from '../../../plan/check-time.ts';

interface PourJson {
  readonly index: number; readonly formula: string; readonly depthMm: number; readonly route: string | null;
  readonly starts: string; readonly ends: string; readonly opens: string; readonly closes: string; readonly scuffable: string; readonly paintable: string; readonly demold: string;
  readonly box?: { readonly from: string; readonly to: string };
}
interface PlanJson {
  readonly pours: readonly PourJson[];
  readonly steps: readonly { readonly kind: string; readonly pour: number | null; readonly from: string; readonly to: string }[];
  readonly finish: string;
}
interface FormulaJson {
  readonly id: string; readonly atC: number; readonly maxDepthMm: number; readonly bondOpensH: number; readonly bondClosesH: number; readonly scuffableH: number; readonly paintableH: number; readonly demoldH: number;
}
export interface BoxScene {
  readonly formulas: readonly FormulaJson[];
  readonly room: { readonly temperatureC: number; readonly profile?: readonly { readonly from: string; readonly temperatureC: number }[]; readonly box?: { readonly temperatureC: number; readonly hours?: readonly HoursJson[] } };
  readonly bench: { readonly hours?: readonly HoursJson[] };
}
type HoursJson = Parameters<typeof benchHours>[0][number];

const DAILY: readonly HoursJson[] = [{ days: 'Mon-Sun', from: '08:00', to: '20:00' }];
/** Design: moving is attended work of a few minutes. */
const MOVE_MIN = 5;
const HORIZON_MIN = 60 * 1440;

/** The room around a piece that is in the box for some intervals. */
function around({ room }: BoxScene, stays: readonly Interval[]): RoomPiece[] {
  const pieces = roomPieces(room);
  const box = room.box!;
  const first = Math.min(...stays.map(({ from }) => from), Infinity);
  const on = box.hours && box.hours.length > 0 ? benchHours(box.hours, first - 1440, first + HORIZON_MIN).intervals : [{ from: -Infinity, to: Infinity }];
  const warm = stays.flatMap((stay) => on.map(({ from, to }) => ({ from: Math.max(from, stay.from), to: Math.min(to, stay.to) })).filter(({ from, to }) => to > from));
  const at = (minute: number): number => {
    let c = pieces[0].temperatureC;
    for (const piece of pieces) if (piece.from <= minute) c = piece.temperatureC;
    return warm.some(({ from, to }) => from <= minute && minute < to) ? Math.max(c, box.temperatureC) : c;
  };
  const edges = [...new Set([...pieces.slice(1).map(({ from }) => from), ...warm.flatMap(({ from, to }) => [from, to])])].filter(Number.isFinite).sort((a, b) => a - b);
  return [{ from: -Infinity, temperatureC: pieces[0].temperatureC }, ...edges.map((from) => ({ from, temperatureC: at(from) }))];
}

/** What is wrong with the times of a plan; empty: nothing. Heat that is simulated may make everything later, and the bond go sooner. */
export function replayed(scene: BoxScene, plan: PlanJson, { simulated = false } = {}): string[] {
  const wrong: string[] = [];
  const stays = plan.pours.flatMap(({ box }) => (box ? [{ from: minutesOf(box.from), to: minutesOf(box.to) }] : []));
  const last = Math.max(...plan.pours.map(({ demold }) => minutesOf(demold)));
  const bench = benchHours(scene.bench.hours ?? DAILY, minutesOf(plan.pours[0].starts) - 1440, last + HORIZON_MIN);
  const bare = roomPieces(scene.room);
  const same = (what: string, told: string, exact: number, round: (m: number) => number) => {
    if (simulated && minutesOf(told) >= round(exact - CLOCK_MIN)) return;
    if (![round(exact), round(exact - CLOCK_MIN), round(exact + CLOCK_MIN)].includes(minutesOf(told))) wrong.push(`${what} ${told}, expected ${textOf(round(exact))}`);
  };
  plan.pours.forEach((pour, i) => {
    const { atC, ...label } = scene.formulas.find(({ id }) => id === pour.formula)!;
    const name = `pour ${pour.index}`;
    const [starts, ends, opens] = [minutesOf(pour.starts), minutesOf(pour.ends), minutesOf(pour.opens)];
    if (pour.depthMm > label.maxDepthMm + 1e-9) wrong.push(`${name} is ${pour.depthMm} mm deep`);
    same(`${name} opens`, pour.opens, whenProgressed(bare, atC, ends, label.bondOpensH), Math.ceil);
    if (minutesOf(pour.closes) > whenProgressed(bare, atC, starts, label.bondClosesH)) wrong.push(`${name} closes later than by its label`);
    const into = firstFit(bench, opens, MOVE_MIN);
    const own = around(scene, [{ from: into, to: Infinity }]);
    const cured = Math.ceil(whenProgressed(own, atC, ends, label.scuffableH) - CLOCK_MIN);
    same(`${name} is scuffable`, pour.scuffable, whenProgressed(own, atC, ends, label.scuffableH), Math.ceil);
    same(`${name} is paintable`, pour.paintable, whenProgressed(own, atC, ends, label.paintableH), Math.ceil);
    same(`${name} comes out`, pour.demold, whenProgressed(around(scene, stays), atC, ends, label.demoldH), Math.ceil);
    const next = plan.pours[i + 1];
    const scuffs = plan.steps.filter(({ kind, pour: of }) => kind === 'scuff' && of === pour.index).map(({ from }) => minutesOf(from));
    if (scuffs.length > 0 && Math.min(...scuffs) < cured) wrong.push(`${name} is scuffed before it has cured`);
    if (next?.route === 'wet-on-tacky' && pour.box) wrong.push(`${name} is in the box though the next is poured onto it tacky`);
    if (!pour.box) return;
    if (minutesOf(pour.box.from) !== into) wrong.push(`${name} goes into the box ${pour.box.from}, expected ${textOf(into)}`);
    if (!insideBench(bench, into, into + MOVE_MIN)) wrong.push(`${name} is moved outside bench hours`);
    if (into < opens) wrong.push(`${name} is moved while it is liquid`);
    const out = scuffs.length > 0 ? Math.min(...scuffs) : minutesOf(plan.finish);
    if (minutesOf(pour.box.to) !== out) wrong.push(`${name} leaves the box ${pour.box.to}, expected ${textOf(out)}`);
    if (minutesOf(pour.closes) > whenProgressed(own, atC, starts, label.bondClosesH)) wrong.push(`${name} closes later than it does in the box`);
    if (!plan.steps.some(({ kind, pour: of, from }) => kind === 'move' && of === pour.index && from === pour.box!.from)) wrong.push(`${name} has no step into the box`);
    if (next && minutesOf(next.starts) < out + 30) wrong.push(`pour ${next.index} is poured before the piece is out and scuffed`);
  });
  return wrong;
}
