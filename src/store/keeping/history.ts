/** Undo and redo as a list of steps and a place in it, bounded. Pure: records in, records out. */
import type { FileHashes, PieceRecord, StepRecord } from './records.ts';

export interface HistoryLimits {
  /** Steps kept, the current one among them. */
  readonly steps: number;
  /** Bytes of their documents, two per character. */
  readonly bytes: number;
}

export const HISTORY_LIMITS: HistoryLimits = { steps: 200, bytes: 20e6 };

/** A piece with the steps its record names. */
export interface PieceWithSteps {
  readonly record: PieceRecord;
  readonly steps: ReadonlyMap<number, StepRecord>;
}

export interface Change {
  readonly label: string;
  readonly text: string;
  readonly files: FileHashes;
  readonly at: number;
}

/** What is redone is given up; the oldest steps go first when the limits are passed, the new one never. */
export function withEdit({ record, steps }: PieceWithSteps, change: Change, limits: HistoryLimits = HISTORY_LIMITS): PieceWithSteps {
  const step = stepOf(record.id, record.nextSeq, change);
  const order = [...record.steps.slice(0, record.at + 1), step.seq];
  let bytes = [...order.slice(0, -1).map((seq) => steps.get(seq)!), step].reduce((sum, { text }) => sum + bytesOf(text), 0);
  let drop = 0;
  while (drop < order.length - 1 && (order.length - drop > limits.steps || bytes > limits.bytes)) {
    bytes -= bytesOf(steps.get(order[drop])!.text);
    drop++;
  }
  const kept = order.slice(drop);
  const byNumber = new Map(kept.map((seq) => [seq, seq === step.seq ? step : steps.get(seq)!]));
  const changed = { ...record, steps: kept, at: kept.length - 1, nextSeq: step.seq + 1, changes: record.changes + 1, changedAt: change.at };
  return { record: changed, steps: byNumber };
}

/** One step back (−1) or forward (+1); null when there is none. */
export function withMove({ record, steps }: PieceWithSteps, by: -1 | 1, now: number): PieceWithSteps | null {
  const at = record.at + by;
  if (at < 0 || at >= record.steps.length) return null;
  return { steps, record: { ...record, at, changes: record.changes + 1, changedAt: now } };
}

export function currentStep({ record, steps }: PieceWithSteps): StepRecord {
  return steps.get(record.steps[record.at])!;
}

export function stepOf(piece: string, seq: number, { label, text, files, at }: Change): StepRecord {
  return { piece, seq, label, at, text, files, hashes: hashesOf(files) };
}

function hashesOf(files: FileHashes): string[] {
  return [...new Set(Object.values(files))].sort();
}

export interface Unsaved {
  /** Changes away from what the file holds; for a piece that was never saved, all of them. */
  readonly edits: number;
  /** ms since 1970: when the file was saved, or the piece was made. */
  readonly since: number;
}

/** What no file holds; null when the file is up to date, and for a new piece that was never touched. */
export function unsavedOf(record: PieceRecord): Unsaved | null {
  const { saved, steps, at, changes, createdAt } = record;
  if (!saved) return changes === 0 ? null : { edits: changes, since: createdAt };
  if (steps[at] === saved.step) return null;
  const place = steps.indexOf(saved.step);
  return { edits: place < 0 ? changes - saved.changes : Math.abs(at - place), since: saved.at };
}

const bytesOf = (text: string): number => 2 * text.length;
