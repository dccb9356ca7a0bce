import { describe, expect, it, vi } from 'vitest';
import { everyRow, evidenceOf, main, table } from './evidence.ts';
import { agree, printed, type EvidenceRow } from './evidence-row.ts';

const ROWS = await everyRow();
/** Made once: some checks take a second. */
const EVIDENCE = await evidenceOf(ROWS);

describe('evidence', () => {
  it.each(EVIDENCE)('$subject', ({ expected, got, ok, tolerance, source }) => {
    expect(ok, `expected ${expected} ± ${tolerance}, got ${got}; ${source}`).toBe(true);
  });
});

describe('the table itself', () => {
  it('has a source and a usable tolerance in every row, and no subject twice', () => {
    expect(ROWS.length).toBeGreaterThanOrEqual(110);
    expect(new Set(ROWS.map(({ subject }) => subject)).size).toBe(ROWS.length);
    for (const { subject, source, tolerance } of ROWS) {
      expect(source.length, subject).toBeGreaterThan(5);
      expect(Number.isFinite(tolerance) && tolerance >= 0, subject).toBe(true);
    }
  });

  it('holds no check that another value would pass as well', () => {
    // Every number moved by a hundredth, or by one where it is 0, must fail; a rule of thumb, what its source prints to
    // two digits, or an edge seen in pixels, when it is moved by three times what it is good for.
    for (const { subject, source, expected, got, tolerance } of EVIDENCE) {
      const rough = /common practice|prototype|computed there|seen in pixels/.test(source);
      const wrong = typeof expected === 'string' ? `${expected}.` : expected === 0 ? 1 : rough ? expected + 3 * tolerance : expected * 1.01;
      expect(agree(wrong, got, tolerance), subject).toBe(false);
    }
  });

  it('calls a wrong, a missing and a thrown result not ok', async () => {
    const row: EvidenceRow = { subject: 's', source: 'by hand', expected: 1, tolerance: 0.5, got: () => 1.6 };
    const thrown = { ...row, got: () => { throw new Error('no such thing'); } };
    const evidence = await evidenceOf([row, { ...row, got: () => NaN }, thrown, { ...row, got: () => 1.5 }]);
    expect(evidence.map(({ ok }) => ok)).toEqual([false, false, false, true]);
    expect(evidence[2].got).toBe('failed: no such thing');
    expect(table(evidence)).toContain('1 of 4 checks hold, 3 do not.');
    expect(table(evidence.slice(3))).toMatch(/1 of 1 checks hold\.\n$/);
  });

  it('compares texts whole and infinities never', () => {
    expect(agree('2024-02-29', '2024-02-29', 0)).toBe(true);
    expect(agree('1', 1, 1)).toBe(false);
    expect(agree(Infinity, Infinity, Infinity)).toBe(false);
  });

  it('takes its tolerance from the last printed digit', () => {
    expect(printed('26.508').tolerance).toBeCloseTo(0.0005, 12);
    expect(printed('36').tolerance).toBeCloseTo(0.5, 12);
  });
});

describe('the command', () => {
  it('prints JSON and nothing else, with the contract’s fields, and exits 0', async () => {
    const write = vi.spyOn(process.stdout, 'write').mockReturnValue(true);
    // All of them were made above; one in twenty shows how they are printed.
    const some = ROWS.filter((_, i) => i % 20 === 0);
    try {
      expect(await main(['--json'], some)).toBe(0);
      const rows = JSON.parse(write.mock.calls.map(([text]) => String(text)).join(''));
      expect(rows).toHaveLength(some.length);
      expect(Object.keys(rows[0])).toEqual(['subject', 'source', 'expected', 'got', 'tolerance', 'ok']);
    } finally {
      write.mockRestore();
    }
  });

  it('refuses an option there is none', async () => {
    const say = vi.spyOn(console, 'error').mockReturnValue();
    try {
      expect(await main(['--jason'])).toBe(2);
      expect(say).toHaveBeenCalledWith('Found the option “--jason”. Use: npm run evidence [-- --json]');
    } finally {
      say.mockRestore();
    }
  });
});
