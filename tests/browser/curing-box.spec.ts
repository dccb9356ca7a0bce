/** A curing box, damp air and warm bottles: typed on the room's card, told on Pours. */
import AxeBuilder from '@axe-core/playwright';
import { expect, openPage, test } from './served-page.ts';

test.use({ picture: false });

test('the room’s card takes a curing box, damp air and warm bottles, and the pours go by them', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  await page.getByLabel('Humidity').fill('72');
  await page.getByLabel('Humidity').press('Enter');
  await page.getByLabel('Bottles when mixed').fill('95 °F');
  await page.getByLabel('Bottles when mixed').press('Enter');
  await page.getByRole('button', { name: 'Cure it in a warm box' }).click();
  const box = page.getByLabel('Curing box');
  await expect(box).toHaveValue('26\u00a0°C');
  await box.fill('82.4 F');
  await box.press('Enter');
  await box.fill('90 °C');
  await box.press('Enter');
  await expect(page.getByRole('complementary', { name: 'Card' }).getByText('Curing box: found 90; expected a number from 10 to 60 °C.')).toBeVisible();
  await box.press('Escape');
  await page.getByRole('button', { name: 'Only warm at some hours' }).click();
  await expect(page.getByRole('group', { name: 'Hours of the box' })).toBeVisible();
  for (const name of ['Humidity not measured', 'Bottles as warm as the room', 'No curing box']) {
    const { height } = (await page.getByRole('button', { name }).boundingBox())!;
    expect(height).toBeGreaterThanOrEqual(44);
  }
  const { violations } = await new AxeBuilder({ page }).include('aside').withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']).analyze();
  expect(violations.map(({ id }) => id)).toEqual([]);

  await page.getByRole('link', { name: 'Pours' }).click();
  await expect(page.getByText(/^in the curing box/).first()).toBeVisible();
  await expect(page.getByText(/Bottles at 35\s°C: the mix runs \d+\s% as thick/).first()).toBeVisible();
});
