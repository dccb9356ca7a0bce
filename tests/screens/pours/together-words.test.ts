/** What the page says of pieces poured together. Which refusals there are is the planner’s (tests/core/plan/runs/together.test.ts); here they come in the person’s words. */
import { describe, expect, it } from 'vitest';
import { GOAL_SEARCH } from '../../../src/core/plan/best/goal-search.ts';
import { planTogether } from '../../../src/core/plan/runs/together.ts';
import { readScene } from '../../../src/core/scene/read.ts';
import { problemLines, togetherFindings } from '../../../src/screens/pours/together/together-words.ts';
import { calendarKeys } from '../../../src/screens/pours/together/use-together.ts';
import { NO_BOOLEANS, scene } from '../../plan/planning.ts';

const box = (name: string, more: object = {}) => ({ ...scene({ fillMm: 6 }), name, ...more });
const named = (documents: readonly ReturnType<typeof box>[]) => documents.map((document) => ({ name: document.name, document }));

function asked(documents: readonly ReturnType<typeof box>[]) {
  const scenes = documents.map((document) => {
    const reading = readScene(document);
    if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
    return reading.scene;
  });
  return planTogether(scenes.map((one) => ({ scene: one, given: { meshes: new Map(), booleans: NO_BOOLEANS, heat: null, search: GOAL_SEARCH } })));
}

function linesOf(documents: readonly ReturnType<typeof box>[]): string[] {
  const result = asked(documents);
  return result.ok ? [] : problemLines(result, named(documents));
}

describe('pieces that can’t be poured together', () => {
  it('are told by the card’s words, not the file’s', () => {
    const other = (bench: object, room: object = {}) => linesOf([box('One'), box('Two', { bench: { start: '2026-05-04T08:00', ...bench }, room: { temperatureC: 23, ...room } })]);
    for (const [lines, words] of [
      [other({ scaleG: 1 }), 'step of the scale'],
      [other({ hours: [{ days: 'Sat', from: '08:00', to: '20:00' }] }), 'bench hours'],
      [other({}, { temperatureC: 19 }), 'how warm the room is'],
      [other({}, { humidity: 70 }), 'how damp the air is'],
    ] as const) {
      expect(lines).toEqual([`Two: the card says otherwise than in One (${words}). Pieces that are poured together stand at one bench, in one room: make the two agree.`]);
    }
    expect(linesOf([box('One', { class: { students: 4, at: '2026-05-16T10:00', hours: 2 } }), box('Two')])).toEqual(['One is made by a class, and a class has a day of its own. Plan it by itself, or take the class out of its card.']);
    expect(problemLines({ piece: 1, problems: [{ path: 'fillMm', message: 'found -1; expected more.' }] }, named([box('One'), box('Two')]))).toEqual(['Two: Filled to: found -1; expected more.']);
  });
});

describe('findings of pieces poured together', () => {
  it('come halts first, with whose they are', () => {
    const result = asked([box('One'), box('Thin', { ...scene({ fillMm: 2 }), name: 'Thin', bench: { start: '2026-05-04T08:00', readyBy: '2026-05-04T12:00' } })]);
    if (!result.ok) throw new Error('refused');
    const found = togetherFindings(result);
    expect(found[0]).toMatchObject({ severity: 'halt', piece: 'Thin' });
    const order = found.map(({ severity, piece }) => `${severity}${piece === null ? ' of all' : ''}`);
    expect(order.indexOf('caution of all')).toBeGreaterThan(order.lastIndexOf('halt'));
    expect(found.filter(({ severity }) => severity === 'halt')).toHaveLength(result.plans.flatMap(({ findings }) => findings.filter(({ severity }) => severity === 'halt')).length);
  });
});

describe('what pieces are known by in calendars', () => {
  it('is what each is known by alone, and never the same twice', () => {
    const piece = (id: string | null, name: string, own?: string) => ({ id, name, document: own === undefined ? {} : { id: own } });
    expect(calendarKeys([piece(null, 'Pond', 'a1'), piece('k2', 'Reef'), piece('k3', 'Pond', 'a1'), piece('k4', 'Reef')])).toEqual(['a1', 'Reef', 'a1 k3', 'Reef k4']);
  });
});
