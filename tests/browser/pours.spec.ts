import { readFileSync } from 'node:fs';
import { writeBundle } from '../../src/files/bundle.ts';
import { DEMO, drop, expect, headlessPlan, onDisk, openPage, ROCK_POOL, test, text } from './served-page.ts';

test.use({ demoHeat: 'simulated' });

const thousands = (value: number, digits: number): string => value.toLocaleString('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits });
/** Milliliters, the other unit under them. */
const inBoth = (ml: number): RegExp => new RegExp(`^${thousands(ml, 1).replace('.', '\\.')}[\\d.]+\\sfl\\soz$`);

test('opens on the demo, its pours and findings those of the headless plan', async ({ page, address }) => {
  await openPage(page, address, '#pours');
  const plan = headlessPlan(DEMO);
  await expect(page).toHaveTitle('Mill pond, evening, Stillpool');
  await expect(page.getByRole('heading', { name: 'First pour Mon 4 May, 08:00' })).toBeVisible();
  const rows = page.getByRole('main').getByRole('listitem').filter({ has: page.getByRole('button', { name: /^Pour \d+$/ }) });
  await expect(rows).toHaveCount(plan.pours.length);
  for (const [i, pour] of plan.pours.entries()) {
    const stops = pour.batches[0].scaleStopsG;
    const amounts = rows.nth(i).getByRole('definition');
    await expect(amounts.nth(0)).toHaveText(inBoth(pour.netMl));
    await expect(amounts.nth(1)).toHaveText(inBoth(pour.mixMl));
    await expect(amounts.nth(2)).toHaveText(thousands(stops[0] * pour.batches.length, 1));
    await expect(amounts.nth(3)).toHaveText(thousands((stops[1] - stops[0]) * pour.batches.length, 1));
    await expect(rows.nth(i)).toContainText(pour.why);
    await expect(rows.nth(i)).toContainText(`Stop the scale at ${thousands(stops[0], 1)}\u00a0g, then at ${thousands(stops[1], 1)}\u00a0g.`);
  }
  const findings = page.getByRole('region', { name: 'Findings' });
  for (const [i, { message, remedy }] of plan.findings.entries()) {
    await expect(findings).toContainText(`${i + 1} of ${plan.findings.length}`);
    await expect(findings).toContainText(message);
    await expect(findings).toContainText(remedy);
    if (i + 1 < plan.findings.length) await findings.getByRole('button', { name: 'Next finding' }).click();
  }
  await page.getByText('Cautions', { exact: true }).click();
  for (const caution of plan.cautions) await expect(page.getByRole('listitem').filter({ hasText: caution })).toBeVisible();
});

test('a pour chosen by its tag is chosen in the list and the reverse, by mouse and keyboard', async ({ page, address }) => {
  await openPage(page, address, '#pours');
  const tag = (pour: number) => page.getByRole('group', { name: 'Pours on the gauge' }).getByRole('button', { name: new RegExp(`^Pour ${pour}, `) });
  const row = (pour: number) => page.getByRole('button', { name: `Pour ${pour}`, exact: true });
  await tag(2).click();
  await expect(tag(2)).toHaveAttribute('aria-pressed', 'true');
  await expect(row(2)).toHaveAttribute('aria-pressed', 'true');
  await row(4).click();
  await expect(tag(4)).toHaveAttribute('aria-pressed', 'true');
  await expect(tag(2)).toHaveAttribute('aria-pressed', 'false');
  await tag(4).focus();
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('Enter');
  await expect(row(3)).toHaveAttribute('aria-pressed', 'true');
  await tag(6).focus();
  await page.keyboard.press('Space');
  await expect(row(6)).toBeInViewport();
  await page.keyboard.press('Space');
  await expect(row(6)).toHaveAttribute('aria-pressed', 'false');
});

test('takes a dropped scene, and a bundle with its own mesh', async ({ page, address }) => {
  await openPage(page, address, '#pours');
  await drop(page, [onDisk(ROCK_POOL)]);
  const rockPool = headlessPlan(ROCK_POOL);
  await expect(page.getByRole('heading', { level: 1, name: rockPool.scene })).toBeVisible();
  await expect(page.getByRole('button', { name: /^Pour \d+$/ })).toHaveCount(rockPool.pours.length);

  const scene = JSON.parse(readFileSync(DEMO, 'utf8'));
  scene.name = 'With its own mesh';
  const newt = scene.placements.find((placement: { id: string }) => placement.id === 'f1');
  newt.shape = { type: 'mesh', file: 'assets/newt.ply' };
  const mesh = readFileSync(new URL('../../assets/figures/newt.ply', import.meta.url));
  await drop(page, [{ name: 'pond.stillpool', bytes: writeBundle(JSON.stringify(scene), [['assets/newt.ply', mesh]]) }]);
  await expect(page.getByRole('heading', { level: 1, name: 'With its own mesh' })).toBeVisible();

  scene.name = 'Mesh beside it';
  await drop(page, [text('pond.scene.json', JSON.stringify(scene)), { name: 'newt.ply', bytes: mesh }]);
  await expect(page.getByRole('heading', { level: 1, name: 'Mesh beside it' })).toBeVisible();
  // The same newt, so the same plan as the library's.
  const demo = headlessPlan(DEMO);
  await expect(page.getByRole('definition').first()).toHaveText(inBoth(demo.pours[0].netMl));
});

test('opens a scene by the file picker', async ({ page, address }) => {
  await openPage(page, address, '#pours');
  const choosing = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Files' }).click();
  await page.getByRole('button', { name: 'Open a file' }).click();
  await (await choosing).setFiles(ROCK_POOL);
  await expect(page.getByRole('heading', { level: 1, name: headlessPlan(ROCK_POOL).scene })).toBeVisible();
});

test('a broken file leaves the scene as it was and says what is wrong', async ({ page, address }) => {
  await openPage(page, address, '#pours');
  await drop(page, [text('broken.scene.json', '{ "format": "stillpool.scene", "version": 1, "fillMm": -3 }')]);
  const alert = page.getByRole('alert');
  await expect(alert).toContainText('broken.scene.json can’t be opened');
  await expect(alert).toContainText('fillMm');
  await expect(page.getByRole('heading', { level: 1, name: 'Mill pond, evening' })).toBeVisible();
  await expect(page.getByRole('button', { name: 'Pour 1', exact: true })).toBeVisible();
  await alert.getByRole('button', { name: 'Close this' }).click();
  await expect(alert).toBeEmpty();
  await drop(page, [{ name: 'torn.stillpool', bytes: new Uint8Array([0x50, 0x4b, 3, 4, 1, 2, 3]) }]);
  await expect(alert).toContainText('torn.stillpool can’t be opened');
  await drop(page, [text('newt.stl', 'solid')]);
  await expect(alert).toContainText('newt.stl can’t be added');
});

test('a pour that must not be poured has the words and no amounts', async ({ page, address }) => {
  await openPage(page, address, '#pours');
  const scene = JSON.parse(readFileSync(DEMO, 'utf8'));
  scene.name = 'Thin top';
  scene.placements.find((placement: { id: string }) => placement.id === 'p2').atMm = 53.5;
  await drop(page, [text('thin.scene.json', JSON.stringify(scene))]);
  await expect(page.getByRole('heading', { level: 1, name: 'Thin top' })).toBeVisible();
  await expect(page.getByRole('region', { name: 'Findings' })).toContainText('do not pour');
  const last = page.getByRole('main').getByRole('listitem').filter({ has: page.getByRole('button', { name: /^Pour \d+$/ }) }).last();
  await expect(last).toContainText('DO NOT POUR');
  await expect(last.getByRole('definition')).toHaveCount(0);
  await expect(last).not.toContainText('Stop the scale');
  await expect(page.getByRole('group', { name: 'Pours on the gauge' }).getByRole('button', { name: /do not pour/ })).toHaveCount(1);
});

test('tells of kits and cost, and of nothing where no price is known', async ({ page, address }) => {
  await openPage(page, address, '#pours');
  const kits = page.locator('summary', { hasText: 'Kits and cost' });
  const scene = JSON.parse(readFileSync(DEMO, 'utf8'));
  scene.formulas = scene.formulas.map((formula: object) => ({ ...formula, price: { kitMl: 1500, amount: 48, currency: 'USD' } }));
  scene.labor = { perHour: 25, hours: 9, consumables: 14 };
  scene.fills = scene.fills.map((fill: object) => ({ ...fill, formula: scene.formulas[0].id }));
  scene.stock = [{ formula: scene.formulas[0].id, ml: 300 }];
  await drop(page, [text('priced.scene.json', JSON.stringify(scene))]);
  await kits.click();
  const list = page.locator('details', { has: kits });
  await expect(list).toContainText('Take 300\u00a0mL of the 300\u00a0mL on hand.');
  await expect(list).toContainText('Work, 9\u00a0h at 25.00\u00a0USD: 225.00\u00a0USD');
  for (const formula of scene.formulas) delete formula.price;
  delete scene.labor;
  delete scene.stock;
  await drop(page, [text('unpriced.scene.json', JSON.stringify(scene))]);
  await expect(kits).toHaveCount(0);
});
