/** Nothing lost: what a person changed survives reloads, other tabs, failing storage, newer files and a lost picture. */
import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { DEMO, drop, expect, openPage, test, text } from './served-page.ts';

test.use({ picture: false });

/** ms. The time in which a change is kept, and as much again for a busy machine. */
const KEPT_WITHIN_MS = 2_000;

const keeping = (page: Page) => page.getByRole('status', { name: 'Keeping' });
const title = (page: Page) => page.getByRole('heading', { level: 1 });

/** Adds a painted plane, and waits until it is kept. */
async function changeSomething(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'a painted plane' }).click();
  await expect(keeping(page)).toContainText('Kept in this browser');
}

const undo = (page: Page) => page.getByRole('button', { name: /^Undo/ });
const planes = (page: Page) => page.getByRole('region', { name: 'Gauge' }).getByText('Painted plane');

test('an edit, undo and redo are there after a reload', async ({ page, address }) => {
  await openPage(page, address);
  await expect(keeping(page)).toHaveText('Nothing changed yet');
  await changeSomething(page);
  await expect(keeping(page)).toContainText('not saved to a file yet');
  await page.reload();
  await expect(undo(page)).toBeVisible();
  await expect(planes(page).first()).toBeVisible();
  await undo(page).click();
  await expect(planes(page)).toHaveCount(0);
  // What is promised: every change is kept within a second, not before the very next moment.
  await page.waitForTimeout(KEPT_WITHIN_MS);
  await page.reload();
  await expect(title(page)).toBeVisible();
  await expect(planes(page)).toHaveCount(0);
  await page.getByRole('button', { name: /^Redo/ }).click();
  await expect(planes(page).first()).toBeVisible();
});

test('a second tab looks on, follows, and can take over', async ({ page, context, address }) => {
  await openPage(page, address);
  await changeSomething(page);
  const other = await context.newPage();
  await openPage(other, address);
  const safety = other.getByRole('status', { name: 'Safety of the piece' });
  await expect(safety).toContainText('being changed in another tab');
  await undo(page).click();
  await expect(planes(other)).toHaveCount(0);
  await safety.getByRole('button', { name: /^Take it over/ }).click();
  await expect(safety).toBeEmpty();
  await expect(page.getByRole('status', { name: 'Safety of the piece' })).toContainText('being changed in another tab');
  await other.getByRole('button', { name: 'a painted plane' }).click();
  await expect(planes(page).first()).toBeVisible();
});

test('a file from a newer version is shown and can’t be changed', async ({ page, address }) => {
  await openPage(page, address);
  const scene = { ...JSON.parse(readFileSync(DEMO, 'utf8')), version: 2, name: 'From later', tides: true };
  await drop(page, [text('later.scene.json', JSON.stringify(scene))]);
  await expect(title(page)).toHaveText('From later');
  await expect(page.getByRole('status', { name: 'Safety of the piece' })).toContainText('made with a newer version');
});

test('a write that fails is said, the edit stays, and it is kept when storage works again', async ({ page, address }) => {
  await openPage(page, address);
  await page.evaluate(() => {
    const put = IDBObjectStore.prototype.put;
    Object.assign(window, { storageWorks: false });
    IDBObjectStore.prototype.put = function (...values) {
      if (!(window as unknown as { storageWorks: boolean }).storageWorks) throw new DOMException('No room.', 'QuotaExceededError');
      return put.apply(this, values);
    };
  });
  await page.getByRole('button', { name: 'a painted plane' }).click();
  const safety = page.getByRole('status', { name: 'Safety of the piece' });
  await expect(safety).toContainText('no room left');
  await expect(safety).toContainText('Save to a file now');
  await expect(planes(page).first()).toBeVisible();
  await expect(keeping(page)).toContainText('Not kept');
  await safety.getByRole('button', { name: 'Try again' }).click();
  await expect(safety).toContainText('no room left');
  await page.evaluate(() => Object.assign(window, { storageWorks: true }));
  await expect(safety).toBeEmpty();
  await expect(keeping(page)).toContainText('Kept in this browser');
  await page.reload();
  await expect(planes(page).first()).toBeVisible();
});

test('storage emptied under the page: the open piece is said to be safe and is kept again', async ({ page, address }) => {
  await openPage(page, address);
  await changeSomething(page);
  await page.evaluate(() => new Promise((resolve, reject) => {
    const request = indexedDB.deleteDatabase('stillpool');
    request.onsuccess = resolve;
    request.onerror = reject;
  }));
  await page.getByRole('button', { name: 'a painted plane' }).click();
  const safety = page.getByRole('status', { name: 'Safety of the piece' });
  await expect(safety).toContainText('emptied this page’s storage');
  await page.reload();
  await expect(planes(page).first()).toBeVisible();
});

test.describe('with the mold drawn', () => {
  test.use({ picture: true });
  test('the picture’s context is lost: words say so, nothing else stops, and it comes back', async ({ page, address }) => {
    await openPage(page, address);
    const canvas = page.getByRole('img', { name: 'The mold', exact: true });
    await expect(canvas).toBeVisible();
    await canvas.evaluate((element) => {
      const extension = (element as HTMLCanvasElement).getContext('webgl2')!.getExtension('WEBGL_lose_context')!;
      Object.assign(window, { giveBack: () => extension.restoreContext() });
      extension.loseContext();
    });
    await expect(page.getByText('nothing in the scene is lost')).toBeVisible();
    await changeSomething(page);
    await page.evaluate(() => (window as unknown as { giveBack(): void }).giveBack());
    await expect(page.getByText('nothing in the scene is lost')).toBeHidden();
  });
});
