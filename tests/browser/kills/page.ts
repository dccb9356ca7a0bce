/**
 * The page that is killed: opens the one piece it finds or makes one, tells what it found, then edits without end.
 * Each edit is a count in the document; the driver is told of it when it is made and when it is said to be kept.
 */
import { openKeeping } from '../../../src/store/keeping/keeping.ts';

/** ms between two edits, about as fast as a drag with the keys. */
const EDIT_EVERY_MS = 40;
/** Every so many edits, one is undone and redone, and a file is added. */
const UNDO_EVERY = 7;
const FILE_EVERY = 11;
/** Characters of padding: a document of a usual scene's size. */
const PADDING = 'x'.repeat(8000);

interface Counted {
  readonly count: number;
  readonly padding: string;
}

const keeping = await openKeeping();
const [recent] = await keeping.recents();
const held = recent ? await keeping.acquire(recent.id) : await keeping.create({ name: 'Killed again and again', document: { count: 0, padding: PADDING } satisfies Counted });
if (!held || held.role !== 'editor') throw new Error('the piece can’t be edited');

const document0 = held.piece.document as Counted;
let count = document0.count;
const before = held.piece.undo;
const files = await Promise.all(Object.values(held.piece.files).map((hash) => keeping.file(hash)));
say({ kind: 'opened', count, undo: before, whole: document0.padding === PADDING && files.every((bytes) => bytes !== null && bytes.size === 3000) });

for (;;) {
  count++;
  let kept: Promise<boolean> | null;
  if (count % FILE_EVERY === 0) {
    const hash = await keeping.putFile(new Blob([new Uint8Array(3000).fill(count % 251)]));
    say({ kind: 'made', count, at: Date.now() });
    kept = held.edit(`Edit ${count}`, { count, padding: PADDING }, { 'assets/newt.stl': hash });
  } else {
    say({ kind: 'made', count, at: Date.now() });
    kept = held.edit(`Edit ${count}`, { count, padding: PADDING });
  }
  if (count % UNDO_EVERY === 0) {
    void held.undo();
    kept = held.redo();
  }
  const made = performance.now();
  const counted = count;
  void kept?.then((ok) => ok && say({ kind: 'kept', count: counted, tookMs: performance.now() - made }));
  await new Promise((resolve) => setTimeout(resolve, EDIT_EVERY_MS));
}

function say(message: object): void {
  // The driver listens to the console, which is the way out of the process that has the least in between.
  console.info(JSON.stringify(message)); // eslint-disable-line no-console
}
