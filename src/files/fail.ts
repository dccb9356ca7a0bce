/**
 * How a file is refused: whose it is, what was found, what was expected, what to do.
 * Readers of one format do not know whether they serve a mesh or a scene, so they are given a `Fail`.
 */

export class MeshFileError extends Error {
  override readonly name = 'MeshFileError';
}

export class SceneFileError extends Error {
  override readonly name = 'SceneFileError';
}

/** Makes the error to throw. `found` and `expected` are clauses, `remedy` is a sentence. */
export type Fail = (found: string, expected: string, remedy: string) => Error;

export function meshFail(fileName: string): Fail {
  return (found, expected, remedy) => new MeshFileError(`${quoted(fileName)}: ${found}; expected ${expected}. ${remedy}`);
}

export function sceneFail(fileName: string): Fail {
  return (found, expected, remedy) => new SceneFileError(`${quoted(fileName)}: ${found}; expected ${expected}. ${remedy}`);
}

const LONGEST_QUOTE = 80;

/** Text out of a file, made fit for one line of a message: no control characters, not long. */
export function quoted(text: string): string {
  const plain = text.slice(0, LONGEST_QUOTE + 1).replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029\u202a-\u202e]/g, '\ufffd');
  return plain.length > LONGEST_QUOTE ? `${plain.slice(0, LONGEST_QUOTE - 1)}…` : plain;
}

/** A whole number as people read it: `12,000,000`. */
export function grouped(n: number): string {
  return n.toLocaleString('en-US');
}

/** The name of what was given where a value of another kind was expected. */
export function described(value: unknown): string {
  if (value === undefined) return 'nothing';
  if (value === null) return 'null';
  if (Array.isArray(value)) return `a list of ${value.length}`;
  if (typeof value === 'object') return 'an object';
  return quoted(typeof value === 'string' ? `"${value}"` : String(value));
}

/** What a thrown value says. */
export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
