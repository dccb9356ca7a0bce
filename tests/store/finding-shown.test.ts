import { describe, expect, it } from 'vitest';
import type { Finding, Severity } from '../../src/core/plan/plan.ts';
import { findingShown } from '../../src/store/findings.ts';

/** Order and expected places by hand from the rule: halts, then cautions, then notes; what is new and graver is read first. */
const finding = (severity: Severity, code: string, subject = 'plan'): Finding => ({ severity, code: code as Finding['code'], subject, message: code, remedy: '' });
const halt = finding('halt', 'lift', 'lily-1');
const caution = finding('caution', 'hot', 'pour 2');
const other = finding('caution', 'hot', 'pour 3');
const cup = finding('caution', 'cup-hot');
const note = finding('note', 'start-assumed');
const lastNote = finding('note', 'rounded');

describe('the finding shown after a change', () => {
  it('stays the one that was read, wherever it stands now', () => expect(findingShown([caution, note, lastNote], [caution, note, lastNote], 2)).toBe(2));
  it('is the new caution where a note was read', () => expect(findingShown([caution, note], [note], 0)).toBe(0));
  it('is the new one of several cautions', () => expect(findingShown([caution, other, note], [caution, note], 1)).toBe(1));
  it('stays the note where the caution was there before', () => expect(findingShown([caution, note], [caution, note], 1)).toBe(1));
  it('is a halt before anything lighter', () => {
    expect(findingShown([halt, caution, note], [caution, note], 0)).toBe(0);
    expect(findingShown([halt, caution, note], [halt, caution, note], 2)).toBe(0);
  });
  it('is the one the change brought where one as grave was read', () => {
    expect(findingShown([caution, other, note], [caution, note], 0)).toBe(1);
    expect(findingShown([caution, note, lastNote], [caution, note], 1)).toBe(2);
  });
  it('stays the one read where another was only numbered anew', () => expect(findingShown([cup, other], [cup, caution], 0)).toBe(0));
  it('stays the one read while what heat finds goes and comes again, and where nobody knows what is new', () => {
    expect(findingShown([cup], [cup, caution], 0, [cup, caution])).toBe(0);
    expect(findingShown([cup, caution], [cup], 0, [cup, caution])).toBe(0);
    expect(findingShown([cup, caution], [cup], 0, null)).toBe(0);
    expect(findingShown([cup, caution, other], [cup], 0, [cup, caution])).toBe(2);
  });
  it('stays a halt whatever lighter one is new', () => expect(findingShown([halt, caution], [halt], 0)).toBe(0));
  it('is the first where the one read is gone, or none was', () => {
    expect(findingShown([caution, note], [caution, lastNote, note], 1)).toBe(0);
    expect(findingShown([caution, note], [], 0)).toBe(0);
    expect(findingShown([], [note], 0)).toBe(0);
  });
});
