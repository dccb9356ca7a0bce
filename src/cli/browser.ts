/**
 * Finds a browser of the Chromium kind: CHROME_PATH, then what the system has, then one that an optional
 * package carries, then the system's package manager (Debian, as root).
 */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';

export interface FoundBrowser {
  readonly path: string;
  /** Set for the browser only. */
  readonly env: Readonly<Record<string, string>>;
}

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome', 'microsoft-edge'];
const PLACES = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

export async function findBrowser(): Promise<FoundBrowser | null> {
  const installed = installedBrowser();
  if (installed) return { path: installed, env: {} };
  return (await carriedBrowser()) ?? systemInstalled();
}

/** A browser that is there already. */
export function installedBrowser(): string | null {
  const named = process.env.CHROME_PATH;
  if (named && existsSync(named)) return named;
  const folders = (process.env.PATH ?? '').split(delimiter);
  const onPath = NAMES.flatMap((name) => folders.map((folder) => join(folder, name)));
  return [...onPath, ...PLACES].find((path) => existsSync(path)) ?? null;
}

/** The browser inside an optional package (Linux, x64). It unpacks itself; its libraries lie beside it. */
async function carriedBrowser(): Promise<FoundBrowser | null> {
  if (process.platform !== 'linux' || process.arch !== 'x64') return null;
  try {
    const name = '@sparticuz/chromium';
    const { default: chromium } = await import(name);
    process.env.AWS_EXECUTION_ENV ??= 'AWS_Lambda_nodejs20.x'; // asks the package to unpack its libraries too
    const path: string = await chromium.executablePath();
    return works(path, { LD_LIBRARY_PATH: '/tmp/al2023/lib' }) ? { path, env: { LD_LIBRARY_PATH: '/tmp/al2023/lib' } } : null;
  } catch {
    return null;
  }
}

function systemInstalled(): FoundBrowser | null {
  if (process.platform !== 'linux' || process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return null;
  console.error('No browser found; installing Debian’s chromium …');
  for (const args of [['update'], ['install', '-y', '--no-install-recommends', 'chromium']]) {
    spawnSync('apt-get', args, { stdio: ['ignore', 2, 2], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } });
  }
  const path = installedBrowser();
  return path ? { path, env: {} } : null;
}

function works(path: string, env: Record<string, string>): boolean {
  return spawnSync(path, ['--version'], { env: { ...process.env, ...env } }).status === 0;
}
