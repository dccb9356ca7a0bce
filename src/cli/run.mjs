// The one runner behind npm's scripts. Plain Node, because it must work before anything is installed:
// it installs what the lock file asks for when that changed (npm's own pre-scripts would not run under
// ignore-scripts), bundles the command once per state of the sources, and runs it.
// Whatever it has to say goes to stderr; stdout belongs to the command.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, readdirSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, isAbsolute, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');
const CACHE = join(ROOT, '.cache');

/** Commands that are bundled, and where each begins. `main(args): Promise<number>` gives the exit code. */
const ENTRIES = {
  start: 'src/cli/start.ts',
  test: 'src/cli/test.ts',
  plan: 'src/cli/plan.ts',
  cure: 'src/cli/cure.ts',
  evidence: 'tests/reference/evidence.ts',
  bench: 'tests/bench/bench.ts',
  figures: 'src/cli/figures/figures.ts',
};

const [command, ...args] = process.argv.slice(2);
if (!Object.hasOwn(ENTRIES, command ?? '')) {
  console.error(`Unknown command “${command ?? ''}”. Known: ${Object.keys(ENTRIES).join(', ')}.`);
  process.exit(2);
}
const [major, minor] = process.versions.node.split('.').map(Number);
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Node ${process.versions.node} is too old; Stillpool needs 20.19 or newer.`);
  process.exit(2);
}
process.env.STILLPOOL_ROOT = ROOT;
installIfChanged();
const bundle = await bundled(command);
// What the plan command worked out goes with its bundle: other sources may come to something else.
if (command === 'plan') process.env.STILLPOOL_KEPT = join(bundle, '..', 'kept');
const { main } = await import(pathToFileURL(bundle).href);
process.exitCode = (await main(args)) ?? 0;

function installIfChanged() {
  const stamp = join(ROOT, 'node_modules', '.stillpool-lock');
  const wanted = hash(readFileSync(join(ROOT, 'package-lock.json')));
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  console.error('Installing what package-lock.json asks for …');
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';
  const done = spawnSync(npm, ['ci', '--include=dev', '--no-fund', '--no-audit'], {
    cwd: ROOT,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (done.status !== 0) {
    console.error('npm ci did not finish; see its message above. Check the connection to the npm registry and try again.');
    process.exit(2);
  }
  writeFileSync(stamp, wanted);
}

/** The command's entry module, made when there is none for this state of the sources. Chunks keep what a run doesn't need unloaded. */
async function bundled(name) {
  const folder = join(CACHE, name);
  const ready = join(folder, sourcesHash());
  if (!existsSync(ready)) {
    const { rolldown } = await import('rolldown');
    const bundle = await rolldown({
      input: { main: join(ROOT, ENTRIES[name]) },
      platform: 'node',
      external: (id) => !id.startsWith('.') && !isAbsolute(id),
      cwd: ROOT,
      logLevel: 'silent',
    });
    const unfinished = `${ready}.${process.pid}`;
    await bundle.write({ dir: unfinished, format: 'esm', entryFileNames: '[name].mjs', chunkFileNames: '[name]-[hash].mjs' });
    await bundle.close();
    for (const old of readdirSync(folder)) if (join(folder, old) !== unfinished && !/\.\d+$/.test(old)) rmSync(join(folder, old), { recursive: true, force: true });
    try {
      renameSync(unfinished, ready);
    } catch (error) {
      rmSync(unfinished, { recursive: true, force: true });
      if (!existsSync(ready)) throw error;
    }
  }
  return join(ready, 'main.mjs');
}

/** Over what a bundle can hold, and what resolves its packages. */
function sourcesHash() {
  const sum = createHash('sha256').update(process.versions.node);
  sum.update(readFileSync(join(ROOT, 'package-lock.json')));
  for (const folder of ['src', 'tests']) {
    for (const entry of readdirSync(join(ROOT, folder), { recursive: true, withFileTypes: true }).sort(byPath)) {
      if (entry.isFile() && /\.(ts|tsx|mjs|json)$/.test(entry.name)) sum.update(readFileSync(join(entry.parentPath, entry.name)));
    }
  }
  return sum.digest('hex').slice(0, 24);
}

function byPath(a, b) {
  const left = join(a.parentPath, a.name);
  const right = join(b.parentPath, b.name);
  return left < right ? -1 : left > right ? 1 : 0;
}

function hash(bytes) {
  return createHash('sha256').update(bytes).digest('hex');
}
