/** Numbers typed on the card: each field answers for itself, what can't be had is said, and the clip shows all of its digits. */
import { expect, openPage, test } from './served-page.ts';

test.use({ picture: false });

test.use({ viewport: { width: 1440, height: 900 } });

test('each field says its own trouble, and a height that can’t be had is not set', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  await page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name: 'Lily shadows', exact: true }).click();
  const card = page.getByRole('complementary', { name: 'Card' });
  const up = card.getByRole('textbox', { name: 'Up from the floor' });
  const dry = card.getByRole('textbox', { name: 'Time to dry' });
  await up.fill('70');
  await up.press('Enter');
  await dry.fill('-1');
  await dry.press('Enter');
  await expect(card.getByRole('alert')).toHaveCount(2);
  await expect(up).toHaveAccessibleDescription(/^Found 70\smm up; Lily shadows can begin no higher than 55\smm, where the resin ends\./);
  await expect(dry).toHaveAccessibleDescription(/found -1; expected a number from 0 to 8760\sh/);
  await expect(up).toHaveValue('70');
  await expect(page.getByRole('button', { name: /^Undo/ })).toHaveCount(0);
});

test('the clip shows every digit of a height to a hundredth', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  await page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name: 'Lily pads', exact: true }).click();
  const up = page.getByRole('textbox', { name: 'Up from the floor' });
  await up.fill('41.27');
  await up.press('Enter');
  const deep = page.getByRole('group', { name: 'Height of Lily pads' }).getByRole('button', { name: /how deep/ });
  await expect(deep).toHaveText('13.73 deep');
  expect((await deep.boundingBox())!.x).toBeGreaterThanOrEqual(0);
});
