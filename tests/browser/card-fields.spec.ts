/** Stock, kits, prices, hours, clarity and formulas to choose from, typed on a phone's card; the plan follows, and each can be undone. */
import AxeBuilder from '@axe-core/playwright';
import type { Locator, Page } from '@playwright/test';
import { expect, openPage, test } from './served-page.ts';

test.use({ picture: false });

test.use({ viewport: { width: 390, height: 844 } });

async function type(within: Locator | Page, label: string, value: string): Promise<void> {
  await within.getByLabel(label, { exact: true }).fill(value);
  await within.getByLabel(label, { exact: true }).press('Enter');
}

/** Whole on a phone: nothing sticks out, everything can be pressed, and a screen reader is told what it is. */
async function wellMade(page: Page): Promise<void> {
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth), 'sideways').toBe(0);
  const { violations } = await new AxeBuilder({ page }).include('aside').withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice']).disableRules(['target-size']).analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
  // In place of axe’s, which takes what the card has scrolled half out of sight for small. Controls inside a sentence are let be (WCAG 2.2, 2.5.8).
  const small = await page.locator('aside').locator('input:visible, select:visible, summary:visible, button:visible').evaluateAll((nodes) => nodes.filter((node) => node.getBoundingClientRect().height < 43.5 && !node.classList.contains('hidden') && (node as HTMLInputElement).type !== 'checkbox').map((node) => node.outerHTML.slice(0, 120)));
  expect(small).toEqual([]);
}

test('kits, what is on hand, hours and margin come to a price', async ({ page, address }) => {
  test.slow();
  await openPage(page, address, '#compose');
  await page.getByRole('button', { name: 'Count them' }).click();
  const price = page.getByRole('region', { name: 'Price and hours' });
  await type(price, 'An hour of your work, USD', '25');
  await type(price, 'Hours in all', '9');
  await type(price, 'Share of the price you keep', '100 %');
  await expect(price.getByRole('alert')).toContainText('Share of the price you keep: found 1; expected a number from 0 to 0.95');
  await type(price, 'Share of the price you keep', '35');
  await type(price, 'What else it takes', 'Oak base');
  await type(price, 'Oak base, USD', '12');
  await wellMade(page);

  await page.getByRole('group', { name: /^Fill from .* to 55/ }).getByRole('button', { name: 'What its label says' }).click();
  const kits = page.locator('details', { has: page.getByText('Kits, and what is on hand') });
  await kits.getByText('Kits, and what is on hand').click();
  await type(kits, 'A kit holds', '34 fl oz');
  await type(kits, 'Its price', '40');
  await type(kits, 'On hand, parts A and B together', '300 mL');
  const hand = kits.getByRole('group', { name: 'On hand 1' });
  await hand.getByLabel('Opened').fill('2026-03-01');
  await hand.getByLabel('Opened').press('Enter');
  await type(hand, 'Keeps, once opened', '6 months');
  await expect(hand.getByLabel('Keeps, once opened')).toHaveValue('6 months');
  await expect(kits.getByRole('group', { name: 'Kit 1' }).getByLabel('A kit holds')).toHaveValue(/1,005\.5\s*mL|34 fl oz/);
  await wellMade(page);

  await page.getByRole('link', { name: 'Pours' }).click();
  await page.getByText('Kits and cost').click();
  const cost = page.locator('details', { has: page.getByText('Kits and cost') });
  await expect(cost).toContainText(/Take 300\smL of the 300\smL on hand/);
  await expect(cost).toContainText(/Work, 9\sh at 25\.00\sUSD: 225\.00\sUSD/);
  await expect(cost).toContainText(/Oak base: 12\.00\sUSD/);
  await expect(cost).toContainText('To ask, with the margin');
});

test('a chip of the dye and a clarity take the place of typed dye; formulas to choose from serve a goal', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  const fill = page.getByRole('group', { name: /^Fill from .* to 30/ });
  await fill.getByText('How clear it gets').click();
  await type(fill, 'Dye in a chip you poured', '0.1 %');
  await type(fill, 'Its thickness', '10 mm');
  await type(fill, 'Light that comes through it', '100');
  await expect(fill.getByRole('alert')).toContainText('Light that passes: found 1; expected a number from 0.0001 to 0.9999');
  await type(fill, 'Light that comes through it', '90');
  await fill.getByText('deepening').click();
  await type(fill, 'Light through the whole fill', '60 %');
  await type(fill, 'Each pour farther in, times the dye', '3');
  await expect(fill.getByLabel(/worked out for each pour/)).toHaveValue('');
  await wellMade(page);
  await expect(page.getByText('Formulas to choose from')).toHaveCount(0);
  await page.getByText('coolest').click();
  await page.getByText('Formulas to choose from').click();
  await page.getByRole('checkbox', { name: /^Deep-pour/ }).check();
  await type(page, 'To mix and pour out one cup', '15');
  await expect(page.getByRole('button', { name: 'Let each fill keep its own' })).toBeVisible();
  await page.getByRole('button', { name: /^Undo: 15\s*min for a cup/ }).click();
  await expect(page.getByLabel('To mix and pour out one cup')).toHaveValue('');
  await wellMade(page);
});
