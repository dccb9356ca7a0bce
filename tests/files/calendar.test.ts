/** The calendar file, read back by ical.js, a reader of RFC 5545 that knows nothing of ours. */
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { calendarFile } from '../../src/files/calendar.ts';
import type { Plan } from '../../src/core/plan/plan.ts';
import { planOf, scene } from '../plan/planning.ts';

const MADE = Date.UTC(2026, 10, 28, 4, 30, 0);
const read = (file: string) => new ICAL.Component(ICAL.parse(file));
const entries = (file: string) => read(file).getAllSubcomponents('vevent');
const value = (entry: ICAL.Component, name: string) => entry.getFirstPropertyValue(name);
const uids = (file: string) => entries(file).map((entry) => String(value(entry, 'uid')));
/** Octets of a line, without its break (RFC 5545 §3.1). */
const MOST_OCTETS = 75;

/** Two pours, the second onto the tacky first. */
const TACKY = scene({ fillMm: 44 });
/** A name that needs every kind of escaping, and letters of 1 to 4 octets. */
const HOSTILE = 'Teich, „Abend“; C:\\pond\nline 2 🐟🐟🐟 é ü 水水水水水水水水水水水水水水水水水水水水水水水水水水水水水水水水水水水 END:VEVENT';

const made = (plan: Plan, more: { madeMs?: number; earlier?: string; piece?: string } = {}) => calendarFile(plan, { piece: 'pond', madeMs: MADE, ...more });

describe('the calendar file', () => {
  const plan = planOf({ ...TACKY, name: HOSTILE });
  const file = made(plan);

  it('folds at 75 octets, between letters, with CRLF', () => {
    const bytes = new TextEncoder().encode(file);
    expect(file.replace(/\r\n/g, '')).not.toMatch(/[\r\n]/);
    const lines = new TextDecoder('utf-8', { fatal: true }).decode(bytes).split('\r\n');
    for (const line of lines) expect(new TextEncoder().encode(line).length, line).toBeLessThanOrEqual(MOST_OCTETS);
    expect(lines.some((line) => line.startsWith(' '))).toBe(true);
  });

  it('has an entry for every step, in the words and at the local times of the plan', () => {
    const steps = entries(file).slice(0, plan.steps.length);
    expect(steps).toHaveLength(plan.steps.length);
    steps.forEach((entry, i) => {
      const start = value(entry, 'dtstart') as ICAL.Time;
      expect(start.toString()).toBe(`${plan.steps[i].from}:00`);
      expect(start.zone.tzid).toBe('floating');
      expect(String(value(entry, 'description'))).toBe(plan.steps[i].text.replace(/\r/g, ''));
      expect(String(value(entry, 'summary')).startsWith(HOSTILE)).toBe(true);
      if (plan.steps[i].to > plan.steps[i].from) expect(String(value(entry, 'dtend'))).toBe(`${plan.steps[i].to}:00`);
      else expect(value(entry, 'dtend')).toBeNull();
    });
  });

  it('stamps every entry in UTC and names none twice', () => {
    for (const entry of entries(file)) expect(String(value(entry, 'dtstamp'))).toBe('2026-11-28T04:30:00Z');
    expect(new Set(uids(file)).size).toBe(uids(file).length);
  });

  it('reminds before a window closes, counted from its end', () => {
    const window = entries(file).find((entry) => String(value(entry, 'uid')).includes('window-2'))!;
    expect(String(value(window, 'dtstart'))).toBe(`${plan.pours[0].opens}:00`);
    const last = plan.pours[1].latestStart ?? plan.pours[0].closes;
    expect(String(value(window, 'dtend'))).toBe(`${last}:00`);
    expect(last <= plan.pours[0].closes).toBe(true);
    const triggers = window.getAllSubcomponents('valarm').map((alarm) => alarm.getFirstProperty('trigger')!);
    expect(triggers.map((trigger) => [trigger.getParameter('related'), (trigger.getFirstValue() as ICAL.Duration).toSeconds()])).toEqual([['END', -7200], ['END', -1800]]);
  });

  it('replaces what it wrote before: the same UIDs, a later stamp, a higher sequence', () => {
    const later = made(planOf({ ...TACKY, name: HOSTILE }, undefined, '2026-06-01T08:00'), { madeMs: MADE + 60_000, earlier: file });
    expect(uids(later)).toEqual(uids(file));
    entries(later).forEach((entry, i) => {
      const before = entries(file)[i];
      expect(Number(value(entry, 'sequence'))).toBeGreaterThan(Number(value(before, 'sequence')));
      expect((value(entry, 'dtstart') as ICAL.Time).compare(value(before, 'dtstart') as ICAL.Time)).toBe(1);
    });
  });

  it('cancels what is no longer planned, and keeps another piece’s entries out of it', () => {
    const shorter = planOf(scene({ fillMm: 20 }));
    const gone = entries(made(shorter, { earlier: file })).filter((entry) => value(entry, 'status') === 'CANCELLED');
    const kept = new Set(uids(made(shorter)));
    expect(gone.map((entry) => String(value(entry, 'uid'))).sort()).toEqual(uids(file).filter((uid) => !kept.has(uid)).sort());
    expect(gone.length).toBeGreaterThan(0);
    expect(gone.every((entry) => value(entry, 'dtstart') instanceof ICAL.Time)).toBe(true);
    const again = entries(made(shorter, { earlier: made(shorter, { earlier: file }) })).filter((entry) => value(entry, 'status') === 'CANCELLED');
    expect(again.map((entry) => [String(value(entry, 'uid')), String(value(entry, 'summary'))])).toEqual(gone.map((entry) => [String(value(entry, 'uid')), String(value(entry, 'summary'))]));
    expect(uids(made(shorter, { earlier: file, piece: 'another' })).length).toBe(kept.size);
    expect(uids(made(shorter, { earlier: 'not a calendar' })).length).toBe(kept.size);
  });

  it('says DO NOT POUR in every entry of a halted pour, with no amounts and no reminder', () => {
    // 2.9 mm of a formula that needs 5 (cases.md 6): the upper pour alone is halted.
    const halted = planOf(scene({ fillMm: 22.9, fills: [{ toMm: 20, formula: 'TL' }, { toMm: 22.9, formula: 'TL' }] }));
    expect(halted.findings[0]).toMatchObject({ severity: 'halt', pours: [2] });
    const all = entries(made(halted));
    const said = (entry: ICAL.Component) => `${String(value(entry, 'summary'))} ${String(value(entry, 'description'))}`;
    const second = all.filter((entry) => /(pour|wait|place|window)-2(-1)?@|(demold|finish)-1@/.test(String(value(entry, 'uid'))));
    expect(second.length).toBeGreaterThanOrEqual(3);
    for (const entry of second) {
      expect(String(value(entry, 'summary')).startsWith('DO NOT POUR')).toBe(true);
      expect(String(value(entry, 'description'))).toContain(halted.findings[0].message);
      expect(String(value(entry, 'description'))).not.toMatch(/mix \d/);
      expect(entry.getAllSubcomponents('valarm')).toHaveLength(0);
    }
    const first = all.find((entry) => String(value(entry, 'uid')).includes('pour-1-1'))!;
    expect(String(value(first, 'summary'))).not.toContain('DO NOT POUR');
    for (const entry of all) expect(said(entry)).toContain(halted.findings[0].message);
  });

  it('says it in every entry where the halt concerns the whole plan', () => {
    const whole = planOf(TACKY);
    const halt = { code: 'figures-loose', severity: 'halt', subject: 'mold', message: 'It leaks.', remedy: 'Mend it.' } as const;
    for (const entry of entries(made({ ...whole, findings: [halt] }))) expect(String(value(entry, 'summary'))).toMatch(/^DO NOT POUR/);
  });
});

describe('a planned finish', () => {
  const plain = planOf(TACKY);
  const plan = planOf({ ...TACKY, finishing: { top: 'flood-coat', sides: 'polished' } });
  const file = made(plan);

  it('is in it: every coat with a reminder, rests as free time, work as taken', () => {
    const own = entries(file).filter((entry) => String(value(entry, 'uid')).includes('-finishing-'));
    const steps = plan.steps.filter(({ finishing }) => finishing && finishing.work !== 'demold' && finishing.work !== 'done');
    expect(own).toHaveLength(steps.length);
    own.forEach((entry, i) => {
      expect(value(entry, 'transp')).toBe(steps[i].kind === 'wait' ? 'TRANSPARENT' : 'OPAQUE');
      expect(entry.getAllSubcomponents('valarm')).toHaveLength(steps[i].finishing!.work === 'coat' ? 1 : 0);
    });
    expect(own.map((entry) => value(entry, 'summary'))).toContain('case: flood coat, top');
    expect(new Set(uids(file)).size).toBe(uids(file).length);
  });

  it('moves what was there before it was planned, and takes it out again', () => {
    expect(uids(file)).toEqual(expect.arrayContaining(uids(made(plain))));
    const back = read(made(plain, { earlier: file })).getAllSubcomponents('vevent').filter((entry) => value(entry, 'status') === 'CANCELLED');
    expect(back).toHaveLength(uids(file).length - uids(made(plain)).length);
  });

  it('says do not pour of a coat that must not be', () => {
    const halted = made({ ...plan, finishing: { ...plan.finishing!, coatHalt: 'DO NOT POUR. The label contradicts itself.' } });
    const coat = entries(halted).find((entry) => String(value(entry, 'uid')).includes('-finishing-coat-'))!;
    expect(value(coat, 'summary')).toMatch(/^DO NOT POUR\. /);
    expect(coat.getAllSubcomponents('valarm')).toEqual([]);
  });
});
