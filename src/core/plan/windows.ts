/** What simulated warmth may do to a label's times: close a window sooner and open everything later, never the other way. */
import type { Windows } from '../cure/verdict-types.ts';
import { downToMinute, upToMinute } from '../units/time.ts';
import type { PourTimes } from './schedule.ts';

/** Under this the label's moment stays (design): the simulation tells no finer. */
const LEAST_MOVE_MIN = 15;

/** A pour's moments with its windows: whole minutes, on the safe side. */
export function tightened(label: PourTimes, { closesMin, opensMin, scuffableMin, paintableMin, demoldMin }: Windows): PourTimes {
  const later = (byLabel: number, byHeat: number | null) => (byHeat !== null && byHeat >= byLabel + LEAST_MOVE_MIN ? upToMinute(byHeat) : byLabel);
  return {
    ...label,
    closes: closesMin !== null && closesMin <= label.closes - LEAST_MOVE_MIN ? downToMinute(closesMin) : label.closes,
    opens: later(label.opens, opensMin),
    scuffable: later(label.scuffable, scuffableMin),
    paintable: later(label.paintable, paintableMin),
    demold: later(label.demold, demoldMin),
  };
}
