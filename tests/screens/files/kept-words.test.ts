import { describe, expect, it } from 'vitest';
import { fileNameOf } from '../../../src/screens/files/download.ts';
import { keptWords, whenWords } from '../../../src/screens/files/kept-words.ts';
import type { KeptState } from '../../../src/store/piece-state.ts';

/** Local times, as the words are. 2026-05-06 is a Wednesday. */
const NOW = new Date(2026, 4, 6, 14, 30).getTime();
const kept = (change: Partial<KeptState>): KeptState => ({ state: 'kept', trouble: null, notices: [], unsaved: null, fileName: null, ...change });

describe('how safe the piece is, in words', () => {
  it.each([
    ['as it was opened', kept({ state: 'untouched' }), 'Nothing changed yet'],
    ['never saved', kept({ unsaved: { edits: 3, since: NOW } }), 'Kept in this browser, not saved to a file yet'],
    ['changed since it was saved', kept({ fileName: 'pond.stillpool', unsaved: { edits: 1, since: new Date(2026, 4, 6, 9, 5).getTime() } }), 'Kept in this browser, not saved to a file since 09:05'],
    ['in its file', kept({ fileName: 'pond.stillpool' }), 'Kept in this browser and in pond.stillpool'],
    ['on its way', kept({ state: 'keeping', unsaved: { edits: 1, since: NOW } }), 'Keeping it …, not saved to a file yet'],
    ['not to be kept', kept({ state: 'failing', unsaved: { edits: 1, since: NOW } }), 'Not kept, not saved to a file yet'],
  ])('%s', (_what, state, words) => {
    expect(keptWords(state, NOW)).toBe(words);
  });

  it('tells days by the calendar, not by hours', () => {
    expect(whenWords(new Date(2026, 4, 6, 0, 0).getTime(), NOW)).toBe('00:00');
    expect(whenWords(new Date(2026, 4, 5, 23, 59).getTime(), NOW)).toBe('yesterday 23:59');
    expect(whenWords(new Date(2026, 4, 4, 23, 59).getTime(), NOW)).toBe('Mon 4 May');
    // The clocks may have changed in between.
    expect(whenWords(new Date(2026, 2, 28, 12, 0).getTime(), new Date(2026, 2, 29, 12, 0).getTime())).toBe('yesterday 12:00');
    // A clock that was set back.
    expect(whenWords(new Date(2026, 4, 7, 8, 0).getTime(), NOW)).toBe('08:00');
  });
});

describe('the name of a saved file', () => {
  it.each([
    ['Mill pond, evening', 'Mill pond, evening.stillpool'],
    ['a/b\\c:d*e?"f<g>h|i', 'a b c d e f g h i.stillpool'],
    ['..', 'Piece.stillpool'],
    ['', 'Piece.stillpool'],
    ['Teich\n\u0000 am Abend. ', 'Teich am Abend.stillpool'],
    ['x'.repeat(300), `${'x'.repeat(120)}.stillpool`],
  ])('%j', (name, saved) => {
    expect(fileNameOf(name, '.stillpool')).toBe(saved);
  });
});
