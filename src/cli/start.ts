/** `npm start`: builds the page when its sources changed, serves it to this machine only, opens a browser where there is one. */
import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, rmdirSync, statSync, writeFileSync } from 'node:fs';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { extname, join, sep } from 'node:path';
import { projectRoot } from './library.ts';
import { orRefused, Refusal } from './refusal.ts';
import { optionsFrom } from './terminal.ts';

const FIRST_PORT = 4173;
/** Ports tried after the first before giving up. */
const PORTS_TRIED = 20;
const HOST = '127.0.0.1';
/** ms. A build takes seconds; a lock this old was left by one that was killed. */
const STALE_LOCK_MS = 120_000;
const USAGE = 'npm start [-- --port N] [--no-open]';

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.wasm': 'application/wasm',
  '.woff': 'font/woff',
  '.woff2': 'font/woff2',
  '.ply': 'application/octet-stream',
};

/** The page's meta element says the same; a header covers its workers too, and only a header can forbid framing. */
const CONTENT_POLICY =
  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; worker-src 'self' blob:; img-src 'self' blob: data:; style-src 'self'; font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'";

/** Runs until it is stopped. Exit code 2: an option or the port can't be served. */
export function main(args: readonly string[]): Promise<number> {
  return orRefused(() => served(readOptions(args)));
}

async function served({ port: wanted, open }: Options): Promise<number> {
  const server = pageServer(await builtPage());
  const port = await listenOn(server, wanted);
  const address = `http://${HOST}:${port}/`;
  process.stdout.write(`Stillpool is open at ${address}\nStop it with Ctrl-C.\n`);
  if (open) openBrowser(address);
  await new Promise<void>((stopped) => {
    for (const signal of ['SIGINT', 'SIGTERM'] as const) process.once(signal, () => stopped());
  });
  server.closeAllConnections();
  server.close();
  return 0;
}

/** The page's files by their paths, such as `index.html`. Held in memory: a build that comes later must not pull them from under a reader. */
export type PageFiles = ReadonlyMap<string, Buffer>;

/** Serves these files and nothing else, below `prefix` (`/` or `/folder/`). */
export function pageServer(files: PageFiles, prefix = '/'): Server {
  return createServer((request, response) => serve({ files, prefix }, request, response));
}

/** The port it listens on: the wanted one, 0 for any, or without a wish 4173 or the next that is free. @throws Refusal when none is. */
export async function listenOn(server: Server, wanted?: number): Promise<number> {
  const ports = wanted === undefined ? Array.from({ length: PORTS_TRIED }, (_, i) => FIRST_PORT + i) : [wanted];
  for (const port of ports) {
    try {
      await new Promise<void>((listening, failed) => {
        server.once('error', failed);
        server.listen(port, HOST, () => {
          server.off('error', failed);
          listening();
        });
      });
      return (server.address() as AddressInfo).port;
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code === 'EADDRINUSE' && wanted === undefined) continue;
      throw new Refusal(`Port ${port} can’t be used (${code ?? 'unknown'}); expected a free one. Choose another: ${USAGE}`, { cause: error });
    }
  }
  throw new Refusal(`Ports ${ports[0]} to ${ports[ports.length - 1]} are all in use; expected one to be free. Choose another: ${USAGE}`);
}

/** The built page; builds it when this state of the sources hasn't been. Two callers build one after the other. */
export async function builtPage(): Promise<PageFiles> {
  const root = projectRoot();
  const folder = join(root, 'dist');
  const stamp = join(root, '.cache', 'page.hash');
  const lock = join(root, '.cache', 'page.lock');
  mkdirSync(join(root, '.cache'), { recursive: true });
  await taken(lock);
  try {
    const wanted = sourcesHash(root);
    const built = existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted && existsSync(join(folder, 'index.html'));
    if (!built) {
      console.error('Building the page …');
      const { build } = await import('vite');
      await build({ configFile: join(root, 'vite.config.ts'), logLevel: 'error' });
      writeFileSync(stamp, wanted);
    }
    return filesOf(folder);
  } finally {
    rmdirSync(lock);
  }
}

function filesOf(folder: string): PageFiles {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => statSync(join(folder, name)).isFile());
  return new Map(names.map((name) => [name.split(sep).join('/'), readFileSync(join(folder, name))]));
}

async function taken(lock: string): Promise<void> {
  for (;;) {
    try {
      mkdirSync(lock);
      return;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
    const since = statSync(lock, { throwIfNoEntry: false })?.mtimeMs ?? 0;
    if (since > 0 && Date.now() - since > STALE_LOCK_MS) rmdirSync(lock);
    else await new Promise((again) => setTimeout(again, 200));
  }
}

/** Over all that the page is built from, commands left out. The runner, which can import no TypeScript, has its own over what commands are bundled from. */
function sourcesHash(root: string): string {
  const sum = createHash('sha256').update(process.versions.node);
  for (const name of ['package-lock.json', 'vite.config.ts', 'tsconfig.json']) sum.update(readFileSync(join(root, name)));
  for (const folder of ['src', 'assets']) {
    const names = readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' }).map((name) => join(folder, name));
    for (const name of names.sort()) {
      if (!name.startsWith(join('src', 'cli')) && statSync(join(root, name)).isFile()) sum.update(name).update(readFileSync(join(root, name)));
    }
  }
  return sum.digest('hex');
}

function serve({ files, prefix }: { files: PageFiles; prefix: string }, request: IncomingMessage, response: ServerResponse): void {
  response.setHeader('Content-Security-Policy', CONTENT_POLICY);
  response.setHeader('X-Content-Type-Options', 'nosniff');
  response.setHeader('Referrer-Policy', 'no-referrer');
  response.setHeader('Cross-Origin-Opener-Policy', 'same-origin');
  if (request.method !== 'GET' && request.method !== 'HEAD') {
    response.writeHead(405, { Allow: 'GET, HEAD' }).end();
    return;
  }
  const name = nameIn(prefix, request.url ?? '/');
  const bytes = name === null ? undefined : files.get(name);
  if (name === null || bytes === undefined) {
    response.writeHead(404, { 'Content-Type': 'text/plain; charset=utf-8' }).end('There is no such page here.');
    return;
  }
  response.writeHead(200, {
    'Content-Type': TYPES[extname(name)] ?? 'application/octet-stream',
    'Content-Length': bytes.length,
    // The build puts a hash of the content into every name but the page's own.
    'Cache-Control': name.startsWith('assets/') ? 'public, max-age=31536000, immutable' : 'no-cache',
  });
  response.end(request.method === 'HEAD' ? undefined : bytes);
}

/** The file's name that an address asks for, or null where it can't be one. */
function nameIn(prefix: string, url: string): string | null {
  let path: string;
  try {
    path = decodeURIComponent(url.split(/[?#]/)[0]);
  } catch {
    return null;
  }
  if (!path.startsWith(prefix)) return null;
  const name = path.slice(prefix.length);
  return name === '' || name.endsWith('/') ? `${name}index.html` : name;
}

interface Options {
  readonly port?: number;
  readonly open: boolean;
}

function readOptions(args: readonly string[]): Options {
  const { values } = optionsFrom({ args, options: { port: { type: 'string' }, 'no-open': { type: 'boolean' } } }, USAGE);
  const port = values.port === undefined ? undefined : Number(values.port);
  if (port !== undefined && !(Number.isInteger(port) && port >= 0 && port <= 65_535)) throw new Refusal(`--port: found "${values.port}"; expected a whole number from 0 to 65535. ${USAGE}`);
  return { port, open: !values['no-open'] };
}

/** Where there is a screen to open it on; a browser that won't start is no reason to stop. */
function openBrowser(address: string): void {
  const { platform, env } = process;
  const [command, args] =
    platform === 'darwin' ? ['open', [address]]
    : platform === 'win32' ? ['cmd', ['/c', 'start', '', address]]
    : ['xdg-open', [address]];
  if (env.CI || (platform !== 'darwin' && platform !== 'win32' && !env.DISPLAY && !env.WAYLAND_DISPLAY)) return;
  const child = spawn(command as string, args as string[], { stdio: 'ignore', detached: true });
  child.on('error', () => {});
  child.unref();
}
