/** Changes to try, as they are typed for the command: `room=20 C`, `hours=08:00-22:00`, `hours:Wed=08:00-20:30`, `formula:low=general`, `fill:2=general`, `dry:p1=8 h`, `watch=0 h`; several at once with `;` between them. */
import type { SceneFile } from '../scene/edit/file.ts';
import { thing, thingsOf } from '../scene/edit/things.ts';
import { LIMITS, parseDays } from '../scene/schema.ts';
import { parseTemperature } from '../units/quantity.ts';
import { parseClock, parseLocalTime } from '../units/time.ts';
import type { Trial } from './what-if.ts';

const FORMS = 'room=20 C, hours=08:00-22:00, hours:Wed=08:00-20:30, formula:low=general, fill:2=general, dry=8 h, dry:p1=8 h or watch=0 h';
/** Longer than any change that is meant, hundreds of planes by their ids included. */
const TEXT_MAX = 20_000;

export type ReadTrials = { readonly ok: true; readonly trials: readonly Trial[] } | { readonly ok: false; readonly reason: string };

/** Of a scene's own fills, formulas and planes. Never throws. */
export function readTrials(text: string, file: SceneFile): ReadTrials {
  if (text.length > TEXT_MAX) return no(`found ${text.length} characters; expected ${FORMS}.`);
  const parts = text.split(';').map((part) => part.trim()).filter((part) => part !== '');
  if (parts.length === 0) return no(`found nothing; expected ${FORMS}.`);
  const trials: Trial[] = [];
  for (const part of parts) {
    const read = readTrial(part, file);
    if (!('kind' in read)) return no(read.problem);
    trials.push(read);
  }
  return { ok: true, trials };
}

type Read = Trial | { readonly problem: string };

function readTrial(part: string, file: SceneFile): Read {
  const at = part.indexOf('=');
  if (at < 0) return wrong(part, FORMS);
  const [head, value] = [part.slice(0, at).trim(), part.slice(at + 1).trim()];
  const colon = head.indexOf(':');
  const what = (colon < 0 ? head : head.slice(0, colon)).trim().toLowerCase();
  const of = colon < 0 ? null : head.slice(colon + 1).trim();
  const alone = (trial: Read): Read => (of === null ? trial : wrong(part, `${what}=… alone`));
  switch (what) {
    case 'room': {
      const read = parseTemperature(value);
      return alone('problem' in read ? wrong(part, 'a temperature like room=20 C or room=68 F') : { kind: 'room', temperatureC: read.c });
    }
    case 'hours': return hours(part, of, value);
    case 'formula': return of ? formula(part, of, value, file) : wrong(part, 'which formula, and which takes its place, like formula:low=general');
    case 'fill': return fill(part, of ?? '', value, file);
    case 'dry': return dry(part, of, value, file);
    case 'watch': {
      const read = hoursOf(value);
      return alone(read === null ? wrong(part, 'hours like watch=0.5 h') : { kind: 'watch', hours: read });
    }
    default: return wrong(part, FORMS);
  }
}

function hours(part: string, of: string | null, value: string): Read {
  const on = of === null ? null : parseDays(of) !== null ? { days: of } : /^\d{4}-\d{2}-\d{2}$/.test(of) && parseLocalTime(`${of}T00:00`) !== null ? { date: of } : undefined;
  if (on === undefined) return wrong(part, 'days or a date, like hours:Wed=08:00-20:30, hours:2026-05-06=08:00-20:30 or hours:2026-05-06=none');
  if (on !== null && value.toLowerCase() === 'none') return { kind: 'shut', on };
  const clocks = /^(\d{1,2}:\d{2})\s*(?:-|–|to)\s*(\d{1,2}:\d{2})$/.exec(value)?.slice(1).map((clock) => clock.padStart(5, '0'));
  if (!clocks || clocks.some((clock) => parseClock(clock) === null)) return wrong(part, `two clock times, like hours=08:00-22:00${on === null ? '' : ', or none'}`);
  const [from, to] = clocks;
  return { kind: 'hours', on, from, to };
}

function formula(part: string, of: string, to: string, { fills, plan }: SceneFile): Read {
  const poured = [...new Set([...fills.map((each) => each.formula), ...(plan?.formulas ?? [])])];
  return poured.includes(of) ? { kind: 'formula', of, to } : wrong(part, `a formula that is poured: ${poured.join(', ')}`);
}

function fill(part: string, number: string, to: string, { fills }: SceneFile): Read {
  const at = /^\d{1,3}$/.test(number) ? Number(number) - 1 : -1;
  return fills[at] ? { kind: 'fill', at, formula: to } : wrong(part, fills.length === 1 ? 'fill:1=…, the only one' : `a fill by its number from the floor up, fill:1=… to fill:${fills.length}=…`);
}

function dry(part: string, of: string | null, value: string, file: SceneFile): Read {
  const planes = thingsOf(file).filter(({ kind }) => kind === 'plane');
  if (planes.length === 0) return { problem: `found “${part}”, and no painted plane to dry. Try another change.` };
  if (of !== null && thing(file, of)?.kind !== 'plane') return wrong(part, `a painted plane: ${planes.slice(0, 12).map(({ id }) => id).join(', ')}`);
  const read = hoursOf(value);
  return read === null ? wrong(part, 'hours like dry=8 h') : { kind: 'dry', plane: of, hours: read };
}

/** `8`, `8 h`, `1.5 d`, `30 min`; null where it is no time, or over a year. */
function hoursOf(text: string): number | null {
  const found = /^(\d{1,6}(?:[.,]\d{1,6})?)\s*(h|hours?|d|days?|min|minutes?)?$/i.exec(text);
  if (!found) return null;
  const unit = (found[2] ?? 'h').toLowerCase();
  const hours = Number(found[1].replace(',', '.')) * (unit.startsWith('d') ? 24 : unit.startsWith('m') ? 1 / 60 : 1);
  return hours <= LIMITS.hoursOfTime ? hours : null;
}

function wrong(part: string, expected: string): { readonly problem: string } {
  return { problem: `found “${part}”; expected ${expected}.` };
}

function no(reason: string): ReadTrials {
  return { ok: false, reason };
}
