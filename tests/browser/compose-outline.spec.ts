/** Selecting several without a mouse, what a low window leaves free, and findings that are long. */
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, openPage, test } from './served-page.ts';

const card = (page: Page) => page.getByRole('complementary', { name: 'Card' });

for (const viewport of [{ width: 1440, height: 900 }, { width: 390, height: 844 }]) {
  test(`several are selected in the outline by key or finger at ${viewport.width} × ${viewport.height}`, async ({ browser, address }) => {
    const phone = viewport.width < 800;
    const context = await browser.newContext({ viewport, hasTouch: phone });
    const page = await context.newPage();
    await openPage(page, address, '#compose');
    await page.getByRole('button', { name: 'Outline', exact: true }).click();
    const newt = page.getByRole('checkbox', { name: /^Select: Newt/ });
    const lily = page.getByRole('checkbox', { name: /^Select: Lily shadows/ });
    if (phone) {
      await newt.tap();
      await lily.tap();
    } else {
      await newt.focus();
      await page.keyboard.press('Space');
      await lily.focus();
      await page.keyboard.press('Space');
    }
    await expect(newt).toBeChecked();
    await expect(lily).toBeChecked();
    await expect(card(page).getByText('2 things')).toBeVisible();
    const { violations } = await new AxeBuilder({ page }).include('.outline').withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']).analyze();
    expect(violations.map(({ id }) => id)).toEqual([]);
    await newt.uncheck();
    await expect(card(page).getByRole('textbox', { name: 'Name' })).toHaveValue('Lily shadows');
    if (!phone) {
      await page.getByRole('button', { name: /^Newt/ }).last().click({ modifiers: ['Shift'] });
      await expect(newt).toBeChecked();
      await expect(lily).toBeChecked();
      await page.getByRole('button', { name: 'Finish: not planned' }).press('Enter');
      await expect(card(page).getByRole('heading', { name: 'Finish' })).toBeFocused();
      await page.getByRole('button', { name: /^Kits of Low-viscosity casting/ }).press('Enter');
      await expect(card(page).getByText('Kits, and what is on hand')).toBeFocused();
    }
    await context.close();
  });
}

test('in a low window the slip starts lowered and the gauge is free of it', async ({ browser, address }) => {
  const viewport = { width: 720, height: 450 };
  const context = await browser.newContext({ viewport });
  const page = await context.newPage();
  await openPage(page, address, '#compose');
  const slip = (await card(page).boundingBox())!;
  const gauge = (await page.getByRole('img', { name: /^Section through the mold/ }).boundingBox())!;
  expect(gauge.y + gauge.height, 'the mold’s floor stands above the slip').toBeLessThanOrEqual(slip.y);
  await page.getByRole('button', { name: 'Show the card' }).click();
  const raised = (await card(page).boundingBox())!;
  expect(raised.height, 'raised it takes at most two fifths').toBeLessThanOrEqual(0.4 * viewport.height + 1);
  await page.getByRole('button', { name: 'Lower the card' }).click();
  await expect(page.getByRole('button', { name: 'Show the card' })).toBeVisible();
  await context.close();
});

test.describe('with what heat finds', () => {
  test.use({ demoHeat: 'simulated' });
  test('a long finding shows four lines and the rest on asking', async ({ page, address }) => {
    await page.setViewportSize({ width: 390, height: 844 });
    await openPage(page, address, '#compose');
    const findings = page.getByRole('region', { name: 'Findings' });
    const more = findings.getByRole('button', { name: 'more of this finding' });
    for (let turns = 0; turns < 20 && !(await more.isVisible()); turns++) await findings.getByRole('button', { name: 'Next finding' }).click();
    const short = (await findings.boundingBox())!.height;
    await more.click();
    await expect(findings.getByRole('button', { name: 'less of this finding' })).toBeVisible();
    expect((await findings.boundingBox())!.height).toBeGreaterThan(short);
  });
});
