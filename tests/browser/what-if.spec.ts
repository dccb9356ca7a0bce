/** What if, on Pours: tried without touching the piece, told in a sentence, taken up by one press that can be undone. */
import { readFileSync, writeFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { scene } from '../plan/planning.ts';
import { DEMO, drop, expect, headlessPlan, openPage, test, text } from './served-page.ts';

test.use({ picture: false });

/** Without heat: what is tried is told at once. */
const POND = JSON.stringify({ ...JSON.parse(readFileSync(DEMO, 'utf8')), name: 'Pond to try', heat: { model: 'label' } });

test('a colder room and longer hours are tried in any unit, told as the command tells them, and taken up by one press', async ({ page, address }, info) => {
  test.slow();
  await page.setViewportSize({ width: 390, height: 844 });
  await openPage(page, address, '#pours');
  await drop(page, [text('pond.scene.json', POND)]);
  await expect(page.getByRole('heading', { level: 1, name: 'Pond to try' })).toBeVisible();
  await page.getByText('What if …').click();
  const panel = page.locator('details.what-if');
  await panel.getByLabel('Room').fill('64.4 °F');
  await panel.getByLabel('Room').press('Enter');
  const hours = panel.getByRole('group', { name: /^Try bench hours/ });
  await hours.getByLabel('to', { exact: true }).fill('22:00');
  await hours.getByLabel('to', { exact: true }).press('Enter');
  const file = info.outputPath('pond.scene.json');
  writeFileSync(file, POND);
  const commanded = headlessPlan(file, '--what-if', 'room=18 C; hours=08:00-22:00') as ReturnType<typeof headlessPlan> & { whatIf: { sentence: string; finish: string }[] };
  await expect(panel.getByRole('status')).toHaveText(commanded.whatIf[0].sentence);
  const { violations } = await new AxeBuilder({ page }).include('main').analyze();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0].html}`)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
  for (const control of await panel.locator('input:visible, select:visible, button:visible, summary').all()) expect((await control.boundingBox())!.height, await control.evaluate((node) => node.outerHTML)).toBeGreaterThanOrEqual(44);

  await panel.getByLabel('Room').fill('500');
  await panel.getByLabel('Room').press('Enter');
  await expect(panel.getByRole('alert')).toContainText('Room: found 500; expected a number from -40 to 120');
  await panel.getByLabel('Room').fill('18');
  await panel.getByLabel('Room').press('Enter');
  await panel.getByRole('button', { name: 'Use this' }).click();
  await expect(panel.getByText('The piece stays as it is.')).toBeVisible();
  await page.getByRole('link', { name: 'Compose' }).click();
  await expect(page.getByLabel('Temperature', { exact: true })).toHaveValue('18\u00a0°C');
  await expect(page.getByRole('button', { name: /^Undo: room at 18\s°C and bench hours/ })).toBeVisible();
});

test('a small change that buys days is planned with by one press, and undone by one', async ({ page, address }) => {
  const planes = [8, 14, 20, 26, 32, 38].map((atMm, i) => ({ id: `p${i}`, kind: 'plane', name: `Plane ${i + 1}`, atMm, paintH: 3, dryH: 12 }));
  const six = scene({ fillMm: 44, placements: planes, bench: { start: '2026-05-04T19:30', watchH: 0 } });
  await openPage(page, address, '#pours');
  await drop(page, [text('six.scene.json', JSON.stringify({ ...six, name: 'Six planes' }))]);
  await expect(page.getByRole('heading', { level: 1, name: 'Six planes' })).toBeVisible();
  const finding = page.getByRole('region', { name: 'Findings' });
  for (let i = 0; i < 12 && !(await finding.getByText('Planes that dry 8 h').isVisible()); i++) await finding.getByRole('button', { name: 'Next' }).click();
  await expect(finding).toContainText(/5\sd 12½\sh closer/);
  const rows = page.locator('.pour-row');
  await expect(rows.last()).toContainText(/out of the mold: Sun\s24\sMay, 08:30/);
  await finding.getByRole('button', { name: 'Plan with it' }).click();
  // The pour over the sixth plane ends at day 12.0, Saturday 20:00, and is out two days later.
  await expect(rows.last()).toContainText(/out of the mold: Mon\s18\sMay, 20:00/);
  await expect(finding.getByText('Planes that dry 8 h')).toHaveCount(0);
  await page.keyboard.press('Control+z');
  await expect(rows.last()).toContainText(/out of the mold: Sun\s24\sMay, 08:30/);
});
