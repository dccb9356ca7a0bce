/** One line of `npm run bench`. */
export interface BenchRow {
  /** Says what is compared and whether the ratio should be at least or at most the aim. */
  readonly name: string;
  readonly ours: number;
  readonly baseline: number;
  readonly ratio: number;
  readonly aim: number;
  /** Of ours and baseline. */
  readonly unit: string;
}
