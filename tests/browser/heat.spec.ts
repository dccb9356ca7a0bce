import { readFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { DEMO, drop, expect, openPage, test, text } from './served-page.ts';

test.use({ demoHeat: 'simulated' });

/** ms. Of a look in three dimensions on a busy machine. */
const LOOK_MS = 120_000;

/** The demo in a room that is warmer than its labels’. */
function warmPond(): string {
  const scene = JSON.parse(readFileSync(DEMO, 'utf8')) as Record<string, unknown>;
  return JSON.stringify({ ...scene, name: 'Warm pond', heat: { model: 'simulated' }, room: { temperatureC: 31 } });
}

const violationsOf = async (page: Parameters<typeof openPage>[0], within = 'main'): Promise<string[]> => {
  const { violations } = await new AxeBuilder({ page }).include(within).withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice']).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ').slice(0, 300)}`);
};

test('each pour says how warm it gets, draws it on asking and tells it in words too', async ({ page, address }) => {
  await openPage(page, address, '#pours');
  const first = page.getByRole('main').getByRole('listitem').filter({ has: page.getByRole('button', { name: 'Pour 1', exact: true }) });
  await expect(first).toContainText(/(Cool|Warm|Hot), \d+ to \d+\s°C at its warmest, after about/);
  await expect(first).toContainText('A room of');
  await first.getByText('How warm it gets').click();
  await expect(first.getByRole('img', { name: /^Pour 1 through time\. (Cool|Warm|Hot), \d+ to \d+\s°C at its warmest, after about / })).toBeVisible();
  await expect(first.getByRole('img', { name: /^Pour 1 through its height, / })).toBeVisible();
  await expect(first.getByRole('table', { name: /Hottest point of pour 1/ }).getByRole('row')).toHaveCount(10);
  await expect(page.getByText('We know of no published, complete measurement')).toBeVisible();
  expect(await violationsOf(page)).toEqual([]);
});

test('a warm room makes it more careful, and one press cools the room or parts the cup', async ({ page, address }) => {
  test.slow();
  await openPage(page, address, '#pours');
  await drop(page, [text('warm.scene.json', warmPond())]);
  await expect(page.getByRole('heading', { level: 1, name: 'Warm pond' })).toBeVisible();
  await expect(page.getByText('the room is warmer than the label’s').first()).toBeVisible();
  await expect(page.getByText('checking the heat …')).toHaveCount(0);
  await page.getByRole('link', { name: 'Compose' }).click();
  const findings = page.getByRole('region', { name: 'Findings' });
  // Pours has findings too: these are read once Compose is there.
  await expect(findings.getByRole('button', { name: 'Show it' })).toBeVisible();
  const shown = await findings.textContent();
  expect(shown).toMatch(/may pass 50\s°C|is safe there|safe there/);
  await findings.getByRole('button', { name: /^Set the (most in one cup to|room to) \d+/ }).click();
  await expect(page.getByText('checking the heat …')).toHaveCount(0);
  await expect(findings).not.toHaveText(shown!);
  await page.getByRole('button', { name: /^Undo: / }).click();
  await expect(findings).toHaveText(shown!);
});

test('a test cup narrows what the label leaves open, is undone, and bad readings keep their text', async ({ page, address }) => {
  test.slow();
  await openPage(page, address, '#compose');
  await page.getByRole('button', { name: 'Low-viscosity casting' }).first().click();
  await page.getByRole('button', { name: 'Enter a test cup' }).click();
  const cup = page.getByRole('group', { name: 'New test cup' });
  const readings = cup.getByLabel('Readings, one a line: minutes since mixing, °C');
  await readings.fill('0, 23\n30, warm');
  await cup.getByRole('button', { name: 'Add the cup' }).click();
  await expect(cup.getByRole('alert')).toHaveText('Line 2: found "warm" as the temperature; expected °C like 23.5.');
  await expect(readings).toHaveValue('0, 23\n30, warm');
  await readings.fill('time (min); T (°C)\n0; 23,0\n30; 26,0\n60; 30,5\n90; 36,0\n120; 38,5\n180; 36,0\n300; 29,0');
  await cup.getByRole('button', { name: 'Add the cup' }).click();
  const kept = page.getByRole('group', { name: 'Test cup', exact: true });
  await expect(kept.getByLabel('Temperature of reading 2')).toHaveValue('26\u00a0°C');
  await expect(page.getByText(/the peak was expected at \d+ to \d+\s°C; with the test cup at \d+ to \d+\s°C/).first()).toBeVisible();
  expect(await violationsOf(page, 'aside')).toEqual([]);
  await page.getByRole('button', { name: 'Undo: test cup of 100 g with 7 readings' }).click();
  await expect(kept).toHaveCount(0);
  await page.getByRole('radio', { name: 'label alone' }).check({ force: true });
  await expect(page.getByRole('button', { name: 'Enter a test cup' })).toHaveCount(0);
  await page.getByRole('link', { name: 'Pours' }).click();
  await expect(page.getByText('Pours are judged by their labels alone.')).toBeVisible();
});

test('a closer look runs beside everything else, can be stopped, and tells each pour and figure', async ({ page, address }) => {
  test.setTimeout(2 * LOOK_MS);
  await openPage(page, address, '#pours');
  await page.getByRole('button', { name: 'Look closer, in three dimensions' }).click();
  await page.getByRole('button', { name: 'Look', exact: true }).click();
  await expect(page.getByRole('progressbar', { name: 'Following the heat' })).toBeVisible();
  await expect(page.getByText(/^Following the heat of every pour: ([5-9]|\d\d)/)).toBeVisible({ timeout: LOOK_MS });
  await page.getByRole('button', { name: 'Stop' }).click();
  await expect(page.getByText('Stopped. Nothing was changed.')).toBeVisible();
  await page.getByRole('button', { name: 'Look', exact: true }).click();
  await expect(page.getByText('Done.', { exact: true })).toBeVisible({ timeout: LOOK_MS });
  const pours = await page.getByRole('button', { name: /^Pour \d+$/ }).count();
  await expect(page.getByRole('img', { name: /^Upright slice through the middle when pour \d+ is warmest/ })).toHaveCount(pours);
  await expect(page.getByRole('listitem').filter({ hasText: /^Newt gets to about \d+\s°C/ })).toBeVisible();
});
