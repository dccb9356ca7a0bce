/** Stepping through how the layers stack: by buttons, keys and swipe. */
import { DEMO, expect, headlessPlan, openPage, test } from './served-page.ts';

test('steps back and forward by buttons, arrow keys and swipe, from the whole piece to the empty mold', async ({ page, address }) => {
  const { pours } = headlessPlan(DEMO);
  await openPage(page, address, '#pours');
  const steps = page.getByRole('region', { name: 'How the layers stack' });
  const back = steps.getByRole('button', { name: 'Back' });
  const forward = steps.getByRole('button', { name: 'Forward' });
  const filledTo = (pour: number) => steps.getByText(new RegExp(`^Filled to pour ${pour} of ${pours.length}: `));
  await expect(filledTo(pours.length)).toBeVisible();
  await expect(forward).toHaveAttribute('aria-disabled', 'true');
  await back.click();
  await expect(filledTo(pours.length - 1)).toBeVisible();
  await expect(page.getByRole('button', { name: `Pour ${pours.length - 1}`, exact: true })).toHaveAttribute('aria-pressed', 'true');
  for (let pour = pours.length - 1; pour > 0; pour--) await page.keyboard.press('ArrowLeft');
  await expect(steps.getByText('The empty mold')).toBeVisible();
  await expect(back).toHaveAttribute('aria-disabled', 'true');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('ArrowRight');
  await expect(filledTo(2)).toBeVisible();
  await expect(steps).toContainText('Painted before it: Lily shadows.');
  await expect(steps).toContainText('It holds down Newt');
  const strip = (await filledTo(2).boundingBox())!;
  const y = strip.y + strip.height / 2;
  await page.mouse.move(strip.x + strip.width / 2, y);
  await page.mouse.down();
  await page.mouse.move(strip.x + strip.width / 2 - 90, y, { steps: 4 });
  await page.mouse.up();
  await expect(filledTo(3)).toBeVisible();
});
