/** How much is loaded before the gauge can be used, and that the page works from a folder of a server that knows nothing of it. */
import { createServer } from 'node:http';
import { extname } from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Page } from '@playwright/test';
import type { PageFiles } from '../../src/cli/start.ts';
import { drop, expect, headlessPlan, onDisk, openPage, ROCK_POOL, test as served } from './served-page.ts';

/** Bytes, packed, from the contract of the editor: what the page is made of, and its worker. */
const FIRST_LOAD_BYTES = 400e3;
const WORKER_BYTES = 60e3;
const FOLDER = '/workshop/pond/';
/** All that a plain server says of a file. Without the first no browser runs a module; without wasm's the page works too, and its library complains in the console. */
const TYPES: Readonly<Record<string, string>> = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.svg': 'image/svg+xml', '.wasm': 'application/wasm' };

/** The page in a folder of a plain file server: no policy, no caching, no types for what it does not know. */
const test = served.extend({
  address: async ({ files }, provide) => {
    const server = createServer((request, response) => {
      const path = new URL(request.url ?? '/', 'http://plain').pathname;
      const name = path.startsWith(FOLDER) ? decodeURIComponent(path.slice(FOLDER.length)) || 'index.html' : '';
      const bytes = files.get(name);
      const type = TYPES[extname(name)];
      response.writeHead(bytes ? 200 : 404, type ? { 'Content-Type': type } : {}).end(bytes);
    });
    await new Promise<void>((listening) => server.listen(0, '127.0.0.1', listening));
    const { port } = server.address() as { port: number };
    await provide(`http://127.0.0.1:${port}${FOLDER}`);
    server.closeAllConnections();
    server.close();
  },
});

const onGauge = (page: Page, name: string) => page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name, exact: true });

/** A module with all that it imports before it can run. */
function withImports(files: PageFiles, name: string, found = new Set<string>()): Set<string> {
  if (found.has(name)) return found;
  found.add(name);
  for (const [, from] of files.get(name)!.toString().matchAll(/\b(?:from|import)\s*["'`]\.\/([^"'`]+)["'`]/g)) withImports(files, `assets/${from}`, found);
  return found;
}

/** Sizes as a server would send them; typefaces are packed already. */
function packedBytes(files: PageFiles, names: readonly string[]): number {
  return names.reduce((sum, name) => sum + (name.endsWith('.woff2') ? files.get(name)!.length : gzipSync(files.get(name)!, { level: 9 }).length), 0);
}

/** Comes after the gauge can be used: the picture, the check of the heat, what is told of a plan. */
const LATER = /\/(three|mold-view|remembered-heat|telling)[^/]*\.js$/;

test('the gauge is used before 3D and the check of heat have come; until then the app and its worker are within their sizes', async ({ page, address, files }) => {
  const asked: string[] = [];
  page.context().on('request', (request) => asked.push(request.url().slice(address.length) || 'index.html'));
  let letGo = (): void => {};
  const held = new Promise<void>((resolve) => { letGo = resolve; });
  await page.route(LATER, async (route) => {
    await held;
    await route.continue();
  });
  await page.goto(address);
  await onGauge(page, 'Newt').click();
  await expect(page.getByRole('group', { name: 'Height of Newt' }).getByRole('button').first()).toBeVisible();
  await expect(page.getByText('The mold is being drawn …')).toBeVisible();

  const names = [...new Set(asked)].filter((name) => files.has(name));
  const worker = names.filter((name) => /\.worker-[^/]*\.js$/.test(name));
  expect(worker).toHaveLength(1);
  expect(packedBytes(files, [...withImports(files, worker[0])]), 'the worker').toBeLessThanOrEqual(WORKER_BYTES);
  const later = names.filter((name) => LATER.test(name));
  for (const part of ['mold-view', 'remembered-heat', 'telling']) expect(later, 'asked for, not yet given').toContainEqual(expect.stringContaining(part));
  // The library of solids with its bridge, the readers of meshes and the demo's own figures come on demand of this scene.
  const onDemand = (name: string): boolean => later.includes(name) || /\.(wasm|figure|json)$/.test(name) || /\/(booleans|read)-[^/]*\.js$/.test(name);
  const app = names.filter((name) => !onDemand(name));
  expect(app, 'the page, its script, its style').toEqual(expect.arrayContaining(['index.html', expect.stringMatching(/^assets\/index-.*\.js$/), expect.stringMatching(/^assets\/index-.*\.css$/)]));
  expect(packedBytes(files, app), app.join(', ')).toBeLessThanOrEqual(FIRST_LOAD_BYTES);
  await expect(page.getByText('checking the heat …')).toBeVisible();
  letGo();
  await expect(page.getByText('checking the heat …')).toBeHidden();
  await expect(page.getByRole('img', { name: 'The mold', exact: true })).toBeVisible();
});

test('a plain file server’s folder will do: planned, drawn, opened, laid out; nothing is asked for outside of it', async ({ page, address }) => {
  await openPage(page, address);
  await expect(page.getByRole('img', { name: 'The mold', exact: true })).toBeVisible();
  await drop(page, [onDisk(ROCK_POOL)]);
  const plan = headlessPlan(ROCK_POOL);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(plan.scene);
  await expect(page.getByRole('group', { name: 'Pours on the gauge' }).getByRole('button')).toHaveCount(plan.pours.length);
  await page.goto(`${address}#sheet`);
  await expect(page.getByRole('button', { name: 'Save the PDF', exact: true })).toBeEnabled();
  await expect(page.getByText('part A (resin)').first()).toBeVisible();
});
