/** A server of the built page for one worker's tests, a page that watches what it loads and says, and headless plans to compare with. */
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { test as base, expect as defaultExpect, type Page } from '@playwright/test';
import { builtPage, listenOn, pageServer, type PageFiles } from '../../src/cli/start.ts';
import type { Plan } from '../../src/core/plan/plan.ts';

export const ROOT = join(import.meta.dirname, '..', '..');
export const DEMO = join(ROOT, 'assets', 'scenes', 'mill-pond.scene.json');
export const ROCK_POOL = join(ROOT, 'assets', 'scenes', 'rock-pool.scene.json');

/** ms. The first build of the page may fall into a worker's start. */
const BUILD_MS = 120_000;

/** Waits longer than the default: planning and laying out share two cores with the other worker's tests. */
export const expect = defaultExpect.configure({ timeout: 20_000 });

/** The renderer's binding to the page still makes a clock that the renderer itself is phasing out; and a test may take the picture's context away. */
const NOT_OURS = /THREE\.Clock: This module has been deprecated|THREE\.WebGLRenderer: Context (Lost|Restored)|GL Driver Message|CONTEXT_LOST_WEBGL/;

/** How the demo judges heat: `simulated` as it is shipped, some seconds for every page that opens on it, or by its labels alone. */
type DemoHeat = 'label' | 'simulated';

/** Of a page that is kept from drawing. */
const NO_PICTURE = /Error creating WebGL context/;

interface Served {
  /** The page as it was built when the worker started: others may build it anew meanwhile. */
  readonly files: PageFiles;
  readonly addresses: Readonly<Record<DemoHeat, string>>;
}

interface Opened {
  readonly demoHeat: DemoHeat;
  /** Without, the mold is not drawn, as in a browser that can't: a third of the work of a test that does not look at it. */
  readonly picture: boolean;
  /** Where the page is. */
  readonly address: string;
  readonly watched: void;
}

/** Every test's page must stay within its own server and say nothing in the console. */
export const test = base.extend<Opened, Served>({
  files: [
    // The runner wants a pattern here, also an empty one.
    async ({}, use) => use(await builtPage()),
    { scope: 'worker', timeout: BUILD_MS },
  ],
  addresses: [
    async ({ files }, use) => {
      const servers = { label: pageServer(withDemoByLabel(files)), simulated: pageServer(files) };
      const at = async (heat: DemoHeat) => `http://127.0.0.1:${await listenOn(servers[heat], 0)}/`;
      await use({ label: await at('label'), simulated: await at('simulated') });
      for (const server of Object.values(servers)) {
        server.closeAllConnections();
        server.close();
      }
    },
    { scope: 'worker' },
  ],
  demoHeat: ['label', { option: true }],
  picture: [true, { option: true }],
  address: async ({ addresses, demoHeat }, provide) => provide(addresses[demoHeat]),
  watched: [
    async ({ page, address, picture }, use) => {
      if (!picture) await page.addInitScript(withoutPicture);
      const strays: string[] = [];
      const said: string[] = [];
      page.on('request', (request) => {
        if (!request.url().startsWith(address) && !request.url().startsWith(`blob:${address}`)) strays.push(request.url());
      });
      const isOurs = (words: string) => !NOT_OURS.test(words) && (picture || !NO_PICTURE.test(words));
      page.on('console', (message) => {
        if ((message.type() === 'error' || message.type() === 'warning') && isOurs(message.text())) said.push(message.text());
      });
      page.on('pageerror', (error) => said.push(error.message));
      await use();
      expect(strays, 'requests that left the page’s own server').toEqual([]);
      expect(said, 'console errors and warnings').toEqual([]);
    },
    { auto: true },
  ],
});

function withoutPicture(): void {
  const own = HTMLCanvasElement.prototype.getContext as (this: HTMLCanvasElement, kind: string, ...rest: unknown[]) => unknown;
  HTMLCanvasElement.prototype.getContext = function (this: HTMLCanvasElement, kind: string, ...rest: unknown[]) {
    return kind.startsWith('webgl') ? null : own.call(this, kind, ...rest);
  } as typeof HTMLCanvasElement.prototype.getContext;
}

function withDemoByLabel(files: PageFiles): PageFiles {
  const [name, demo] = [...files].find(([name]) => /mill-pond.*\.json$/.test(name))!;
  const scene = JSON.parse(demo.toString('utf8')) as object;
  return new Map([...files, [name, Buffer.from(JSON.stringify({ ...scene, heat: { model: 'label' } }))]]);
}

/** Opens the page and waits until the demo is planned, its heat too. */
export async function openPage(page: Page, address: string, hash = ''): Promise<void> {
  await page.goto(address + hash);
  await expect(page.getByRole('heading', { level: 1, name: 'Mill pond, evening' })).toBeVisible();
  await expect(page.getByText('checking the heat …')).toHaveCount(0);
}

/** A plan takes seconds, and the demo's is asked for again and again. */
const plans = new Map<string, Plan>();

/** The plan of the command, in a process of its own. */
export function headlessPlan(file: string, ...options: string[]): Plan {
  const asked = JSON.stringify([file, readFileSync(file, 'base64'), ...options]);
  const plan = plans.get(asked) ?? planned(file, options);
  plans.set(asked, plan);
  return structuredClone(plan);
}

function planned(file: string, options: readonly string[]): Plan {
  const done = spawnSync(process.execPath, [join(ROOT, 'src', 'cli', 'run.mjs'), 'plan', file, '--json', ...options], { encoding: 'utf8', maxBuffer: 64e6 });
  if (done.status !== 0 && done.status !== 1) throw new Error(`plan ${file} ended with ${done.status}: ${done.stderr}`);
  return JSON.parse(done.stdout);
}

export interface Dropped {
  readonly name: string;
  readonly bytes: Uint8Array;
}

export const onDisk = (path: string): Dropped => ({ name: basename(path), bytes: readFileSync(path) });
export const text = (name: string, content: string): Dropped => ({ name, bytes: new TextEncoder().encode(content) });

/** Drops files on the middle of the page, as a person does from a folder. */
export async function drop(page: Page, files: readonly Dropped[]): Promise<void> {
  const transfer = await page.evaluateHandle(
    (list) => {
      const data = new DataTransfer();
      for (const { name, base64 } of list) data.items.add(new File([Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0))], name));
      return data;
    },
    files.map(({ name, bytes }) => ({ name, base64: Buffer.from(bytes).toString('base64') })),
  );
  await page.locator('body').dispatchEvent('dragover', { dataTransfer: transfer });
  await page.locator('body').dispatchEvent('drop', { dataTransfer: transfer });
}
