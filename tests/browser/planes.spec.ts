/** A figure sliced into planes on the page: its outline, its guides, how many planes, the joint's words, the way back. */
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, openPage, test } from './served-page.ts';

const onGauge = (page: Page, name: string) => page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name, exact: true });

async function slice(page: Page): Promise<void> {
  await onGauge(page, 'Newt').click();
  await page.getByRole('button', { name: 'Slice into planes' }).click();
  await page.getByRole('textbox', { name: 'Number of planes' }).fill('3');
  await page.getByRole('textbox', { name: 'Number of planes' }).press('Enter');
  await page.getByRole('button', { name: /^Paint it on \d planes$/ }).click();
  await expect(page.getByRole('heading', { name: 'Painted creature' })).toBeVisible();
  await expect(page.locator('.creature-planes')).toContainText('cm²');
}

async function readsWell(page: Page, part: string): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).include(part).withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice']).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ').slice(0, 300)}`)).toEqual([]);
}

test('a newt is painted on planes, on as many as chosen, and set in again', async ({ page, address }) => {
  await page.setViewportSize({ width: 1440, height: 900 });
  await openPage(page, address);
  await slice(page);
  await expect(onGauge(page, 'Newt 2')).toBeVisible();
  await expect(page.locator('.gauge-picture .creature').first()).toBeAttached();

  await page.getByText('How many planes?').click();
  // Chosen as soon as it is known: the rows after it are given up and asked for again.
  await page.getByRole('button', { name: 'Use 2 planes' }).click();
  await expect(page.getByRole('button', { name: 'Use 2 planes' })).toHaveAttribute('aria-pressed', 'true');
  await expect(page.locator('.creature-planes li')).toHaveCount(2);
  await expect(onGauge(page, 'Newt 3')).toHaveCount(0);
  await readsWell(page, '.card');

  await page.locator('.creature-planes').getByRole('button', { name: 'Newt 1' }).click();
  await expect(page.getByRole('img', { name: 'Newt 1, as it is painted, looking down into the mold' })).toBeVisible();
  await expect(page.getByText(/cm² of paint/)).toBeVisible();
  await page.getByRole('checkbox', { name: 'Newt is painted on it' }).uncheck();
  await expect(page.getByText('Newt and all its planes')).toHaveCount(0);
  await page.getByRole('button', { name: /^Undo: creatures on newt 1/ }).click();
  await expect(page.getByRole('checkbox', { name: 'Newt is painted on it' })).toBeChecked();
  await page.getByRole('button', { name: 'Say what color it is to show' }).click();
  await expect(page.getByRole('list', { name: 'What to paint so that it shows these colors' })).toContainText('To look #b5763a: ');
  await page.getByText('as seen').click();
  await expect(page.getByRole('img', { name: 'Newt 1, as it is seen from the show face' })).toBeVisible();
  await readsWell(page, '.card');

  await page.getByRole('button', { name: 'Back to the piece' }).click();
  await page.getByRole('button', { name: 'It stands under a lamp' }).click();
  await expect(page.getByRole('img', { name: 'The floor, with the shadows that fall on it, looking down into the mold' })).toBeVisible();
  await expect(page.getByText(/^The shadow of Newt falls here, [\d.]+\u00a0mm to the right\.$/)).toBeVisible();
  await onGauge(page, 'Lily shadows').click();
  await expect(page.getByRole('img', { name: 'Lily shadows, as it is painted, looking down into the mold' })).toBeVisible();
  await expect(page.getByText(/^The shadow of Newt falls here, /)).toBeVisible();
  await onGauge(page, 'Newt 1').click();
  await page.getByRole('button', { name: 'Newt and all its planes' }).click();
  await page.getByRole('checkbox', { name: 'Its planes line up for one eye' }).check();
  await page.getByRole('checkbox', { name: /^Build it deeper/ }).check();
  const along = page.getByRole('button', { name: 'Move its 2 planes along' });
  await expect(page.getByText(/They would move to [\d.]+\u00a0mm and [\d.]+\u00a0mm up\./)).toBeVisible();
  await along.click();
  await expect(along).toHaveCount(0);
  await page.getByRole('button', { name: /^Undo: newt on 2 planes/ }).click();
  await expect(along).toBeVisible();
  await page.getByRole('button', { name: 'Set it in as a figure again' }).click();
  await expect(page.getByRole('heading', { name: 'Figure' })).toBeVisible();
  await expect(onGauge(page, 'Newt 1')).toHaveCount(0);
  await page.getByRole('button', { name: /^Undo: newt set in again/ }).click();
  await expect(onGauge(page, 'Newt 1')).toBeVisible();
});

test('on a phone: targets, nothing sticks out, and from a joint of Pours to its template', async ({ page, address }) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await page.emulateMedia({ colorScheme: 'dark' });
  await openPage(page, address);
  await slice(page);
  for (const target of await page.locator('.card').getByRole('button').or(page.locator('.card summary')).all()) {
    const box = (await target.boundingBox())!;
    expect(box.height, (await target.textContent()) ?? '').toBeGreaterThanOrEqual(44);
  }
  await readsWell(page, '.card');
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(390);
  await page.getByRole('link', { name: 'Pours' }).click();
  await expect(page.getByText('Then paint Newt 2')).toBeVisible();
  await page.getByRole('link', { name: 'Its template: Newt 2' }).click();
  await expect(page.getByRole('button', { name: 'Newt 2 as PDF' })).toBeFocused();
});
