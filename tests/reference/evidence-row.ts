/** One check of our arithmetic against something outside it, and what became of it. */

export type Value = number | string;

/** A check to be made. `expected` is a literal of the source, or another library's result in the same run; never ours. */
export interface EvidenceRow {
  /** What is checked, with its unit and, for random input, its seed. */
  readonly subject: string;
  /** Where `expected` comes from; `memory` where it was not looked up. */
  readonly source: string;
  readonly expected: Value | (() => Value | Promise<Value>);
  readonly got: () => Value | Promise<Value>;
  /** Absolute, in the unit of `expected`; 0 for texts and exact definitions. */
  readonly tolerance: number;
}

export type EvidenceRows = readonly EvidenceRow[] | (() => Promise<readonly EvidenceRow[]>);

/** A check that was made. */
export interface Evidence {
  readonly subject: string;
  readonly source: string;
  readonly expected: Value;
  readonly got: Value;
  readonly tolerance: number;
  readonly ok: boolean;
}

/** Of a double that was parsed from a decimal and of one that came out of a few operations, relative. */
const DOUBLE_ROUNDING = 1e-14;

/**
 * A number as its source prints it, with the tolerance that its last digit leaves: half a unit in the last place.
 * `printed('697433.5691')` is 697433.5691 ± 0.00005.
 */
export function printed(text: string): { expected: number; tolerance: number } {
  const expected = Number(text);
  const decimals = text.split('.')[1]?.length ?? 0;
  return { expected, tolerance: 0.5 * 10 ** -decimals + DOUBLE_ROUNDING * Math.abs(expected) };
}

/** A tolerance given as a share of the expected number. */
export function within(share: number, expected: number): { expected: number; tolerance: number } {
  return { expected, tolerance: share * Math.abs(expected) };
}

/** Runs a check. One that throws has failed, and says why in `got`. */
export async function examine(row: EvidenceRow): Promise<Evidence> {
  const { subject, source, tolerance } = row;
  try {
    const expected = typeof row.expected === 'function' ? await row.expected() : row.expected;
    const got = await row.got();
    return { subject, source, expected, got, tolerance, ok: agree(expected, got, tolerance) };
  } catch (error) {
    const expected = typeof row.expected === 'function' ? 'a result' : row.expected;
    return { subject, source, expected, got: `failed: ${error instanceof Error ? error.message : String(error)}`, tolerance, ok: false };
  }
}

/** Texts letter by letter; numbers within the tolerance, finite ones only. */
export function agree(expected: Value, got: Value, tolerance: number): boolean {
  if (typeof expected === 'string' || typeof got === 'string') return expected === got;
  return Number.isFinite(expected) && Number.isFinite(got) && Math.abs(got - expected) <= tolerance;
}
