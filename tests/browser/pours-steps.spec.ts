/** Stepping through how the layers stack: by buttons, keys and swipe; what the wheel is for. */
import { DEMO, expect, headlessPlan, openPage, test } from './served-page.ts';

test.use({ demoHeat: 'simulated' });

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

test('a finger swipes over the picture from pour to pour, without turning the mold, and scrolls the page up and down', async ({ browser, address }) => {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true });
  const page = await context.newPage();
  await openPage(page, address, '#pours');
  const steps = page.getByRole('region', { name: 'How the layers stack' });
  await expect(steps.getByText('Swipe left or right to step.')).toBeVisible();
  const picture = steps.getByRole('img', { name: 'The mold', exact: true });
  await picture.scrollIntoViewIfNeeded();
  const box = (await picture.boundingBox())!;
  const finger = await context.newCDPSession(page);
  const stroke = async (dx: number, dy: number): Promise<void> => {
    const at = (share: number) => [{ x: box.x + box.width / 2 + share * dx, y: box.y + box.height / 2 + share * dy }];
    await finger.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(0) });
    for (const share of [0.2, 0.5, 1]) await finger.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(share) });
    await finger.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  };
  await stroke(90, 0);
  await expect(steps.getByText(/^Filled to pour 6 of 7: /)).toBeVisible();
  await stroke(-90, 0);
  await expect(steps.getByText(/^Filled to pour 7 of 7: /)).toBeVisible();
  const before = await page.evaluate(() => scrollY);
  await stroke(0, -120);
  await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(before);
  await expect(steps.getByText(/^Filled to pour 7 of 7: /)).toBeVisible();
  await context.close();
});

test('the wheel over the picture scrolls a page that goes on below', async ({ page, address }) => {
  await page.setViewportSize({ width: 720, height: 450 });
  await openPage(page, address, '#compose');
  const picture = page.getByRole('img', { name: 'The mold', exact: true });
  await expect(picture).toBeVisible();
  await picture.hover({ position: { x: 20, y: 60 } });
  await page.mouse.wheel(0, 200);
  await expect.poll(() => page.evaluate(() => scrollY)).toBeGreaterThan(0);
});
