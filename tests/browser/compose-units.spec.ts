/** One switch: after it no length in mm and no volume in mL is left on any screen, but where it stands quietly beside the other. */
import type { Page } from '@playwright/test';
import { expect, openPage, test } from './served-page.ts';

test.use({ picture: false });

test.use({ viewport: { width: 1440, height: 900 } });

const card = (page: Page) => page.getByRole('complementary', { name: 'Card' });
const onGauge = (page: Page, name: string) => page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name, exact: true });
const findings = (page: Page) => page.getByRole('region', { name: 'Findings' });

/** Texts and names read aloud that hold a number in mm or mL, or one that has lost its unit; what follows in the other unit is meant to. */
function strays(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const found: string[] = [];
    const odd = /\d[\u00a0 ]m[mL](?![\w²³])|(Stops at|[Ff]ill to|lower it to) [\d.]+(?=[,.]( |$)| and waits)/;
    const quiet = '.other-unit, .other-volume, [id$="-other"], [hidden], .sheet-pages';
    for (const element of document.body.querySelectorAll('p, h1, h2, h3, li, dd, dt, label, legend, button, a, summary, span, b, text, option, figcaption, [aria-live]')) {
      if (element.closest(quiet)) continue;
      const words = element.cloneNode(true) as Element;
      for (const aside of words.querySelectorAll(quiet)) aside.remove();
      if (odd.test(words.textContent!)) found.push(words.textContent!.slice(0, 200));
    }
    for (const element of document.body.querySelectorAll('*')) {
      if (element.closest(quiet)) continue;
      for (const name of ['aria-label', 'title', 'placeholder', 'alt']) if (odd.test(element.getAttribute(name) ?? '')) found.push(`${name}: ${element.getAttribute(name)}`);
      if (element instanceof HTMLInputElement && odd.test(element.value)) found.push(`value: ${element.value}`);
    }
    return found;
  });
}

async function toInches(page: Page): Promise<void> {
  await card(page).getByRole('button', { name: 'Units' }).click();
  await card(page).getByRole('radio', { name: 'inches' }).check({ force: true });
  await card(page).getByRole('radio', { name: 'fl oz' }).check({ force: true });
}

async function everyFinding(page: Page, where: string): Promise<void> {
  const next = findings(page).getByRole('button', { name: 'Next finding' });
  for (let turns = 0; turns < 30; turns++) {
    expect(await strays(page), `${where}, finding ${turns + 1}`).toEqual([]);
    if ((await next.getAttribute('aria-disabled')) === 'true') return;
    await next.click();
  }
}

test('inches and fluid ounces hold on every screen', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  expect(await strays(page), 'the demo is in mm').not.toEqual([]);
  await toInches(page);
  expect(await strays(page), 'the piece').toEqual([]);
  for (const name of ['Newt', 'Pond snail', 'Lily pads', 'Sand slope', 'Top of the resin']) {
    await onGauge(page, name).focus();
    await page.keyboard.press('Enter');
    expect(await strays(page), name).toEqual([]);
  }
  // A thin top: a halt with bare heights in its words, a caution that counts from the rim, and their remedies.
  await card(page).getByRole('textbox', { name: /^Filled to, up/ }).fill('1 3/4');
  await page.keyboard.press('Enter');
  await expect(findings(page)).toContainText('do not pour');
  await expect(page.getByRole('button', { name: /^Undo: .* in$/ })).toBeVisible();
  await everyFinding(page, 'Compose');
  await card(page).getByRole('textbox', { name: /^Filled to, up/ }).fill('20 in');
  await page.keyboard.press('Enter');
  await expect(card(page).getByRole('alert')).toContainText('the mold is 2\u00a03⁄8\u00a0in high');
  expect(await strays(page), 'a refusal').toEqual([]);
  await page.keyboard.press('Escape');
  await card(page).getByRole('button', { name: 'Formulas' }).click();
  await card(page).getByRole('button', { name: 'General casting (typical)' }).click();
  await card(page).getByText('The rest, typical of its class').click();
  await expect(card(page)).toContainText('typical, 2\u00a0% to 4\u00a0%'.replace('2\u00a0% to', '2 to'));
  expect(await strays(page), 'a formula').toEqual([]);
  await page.getByRole('button', { name: 'Outline', exact: true }).click();
  expect(await strays(page), 'the outline').toEqual([]);
  await page.getByRole('button', { name: 'a figure' }).click();
  expect(await strays(page), 'the figures').toEqual([]);
  await page.keyboard.press('Escape');
  await page.getByRole('link', { name: 'Pours' }).click();
  await expect(page.getByRole('heading', { name: 'Do not pour yet' }).or(page.getByRole('heading', { name: /^First pour/ }))).toBeVisible();
  await everyFinding(page, 'Pours');
  for (let at = 0; at < 4; at++) {
    await page.keyboard.press('ArrowLeft');
    expect(await strays(page), 'a step of the pours').toEqual([]);
  }
  await page.getByRole('link', { name: 'Sheet' }).click();
  await expect(page.getByRole('heading', { name: 'Build sheet' })).toBeVisible();
  expect(await strays(page), 'around the sheet').toEqual([]);
});

test('a field shows the fraction the clip shows, and leaving it changes nothing', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  await toInches(page);
  const height = card(page).getByRole('textbox', { name: 'Inside height' });
  await expect(height).toHaveValue('2\u00a03⁄8\u00a0in');
  await height.focus();
  await page.keyboard.press('Enter');
  await onGauge(page, 'Newt').click();
  const up = page.getByRole('group', { name: 'Height of Newt' }).getByRole('button', { name: /far up/ });
  await expect(up).toHaveText(/13⁄16″ up/);
  await up.focus();
  await page.keyboard.press('Enter');
  await page.keyboard.press('Enter');
  await expect(up).toBeFocused();
  await expect(page.getByRole('button', { name: /^Undo: / }), 'nothing was changed').toHaveCount(0);
});
