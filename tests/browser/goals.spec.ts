/** What matters most to the plan: chosen beside it, with the command's own pours; lines, copies and the calendar on the cards. */
import { readFileSync, writeFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { DEMO, drop, expect, headlessPlan, openPage, test, text } from './served-page.ts';

test.use({ picture: false });

/** The demo with a layer that even pours leave as deep as locking a figure allows, and other goals divide more evenly. */
function deepPond(plan?: object): string {
  const scene = JSON.parse(readFileSync(DEMO, 'utf8')) as { fills: { toMm: number }[] };
  scene.fills[0].toMm = 33;
  return JSON.stringify({ ...scene, name: 'Deep pond', heat: { model: 'label' }, ...(plan && { plan }) });
}

const violationsOf = async (page: Parameters<typeof openPage>[0], within: string): Promise<string[]> => {
  const { violations } = await new AxeBuilder({ page }).include(within).withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice']).analyze();
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ').slice(0, 300)}`);
};

test('a goal chosen beside the plan gives the pours of the command, and a line can be kept or left out', async ({ page, address }, info) => {
  test.slow();
  await openPage(page, address, '#pours');
  await drop(page, [text('deep.scene.json', deepPond())]);
  await expect(page.getByRole('heading', { level: 1, name: 'Deep pond' })).toBeVisible();
  const commanded = (wishes?: object) => {
    const file = info.outputPath('deep.scene.json');
    writeFileSync(file, deepPond(wishes));
    return headlessPlan(file);
  };
  const rows = page.locator('.pour-row');
  const shows = async ({ pours }: ReturnType<typeof headlessPlan>): Promise<void> => {
    await expect(rows.locator('h3')).toContainText(pours.map(({ fromMm, toMm }) => `${Number(fromMm.toFixed(1))} to ${Number(toMm.toFixed(1))}\u00a0mm`));
  };
  const even = commanded();
  await shows(even);
  await expect(rows.filter({ hasText: /at the latest, else pour \d+ has to cure and be scuffed first/ })).toHaveCount(even.pours.filter(({ latestStart }) => latestStart !== null).length);

  const goals = page.getByRole('region', { name: /^Other goals/ });
  await expect(goals.getByRole('listitem')).toHaveCount(4);
  await expect(goals.getByRole('listitem').filter({ hasText: 'Coolest:' })).toContainText(/\d\spours more/);
  expect(await violationsOf(page, 'main')).toEqual([]);
  await goals.getByRole('button', { name: 'Choose fewest pours' }).click();
  const fewest = commanded({ goal: 'fewest' });
  expect(fewest.pours.map(({ toMm }) => toMm)).not.toEqual(even.pours.map(({ toMm }) => toMm));
  await shows(fewest);
  await expect(goals.getByRole('button', { name: 'Choose even pours' })).toBeVisible();

  const line = fewest.pours.find(({ layer, index }) => fewest.pours[index]?.layer === layer)!;
  await page.getByRole('button', { name: `Pour ${line.index}`, exact: true }).first().click();
  await rows.nth(line.index - 1).getByRole('button', { name: /^No line within 2\s*mm of/ }).click();
  await shows(commanded({ goal: 'fewest', avoid: [{ fromMm: line.toMm - 2, toMm: line.toMm + 2 }] }));
  await page.getByRole('link', { name: 'Compose' }).click();
  await expect(page.getByRole('radio', { name: 'fewest pours' })).toBeChecked();
  await page.getByRole('button', { name: /^Allow lines from/ }).click();
  await page.getByRole('link', { name: 'Pours' }).click();
  await shows(fewest);
});

test('the cards hold other days, a wanted finish, hours of sleep and copies', async ({ page, address }) => {
  await openPage(page, address, '#compose');
  await page.getByLabel('Copies poured at once').fill('3');
  await page.getByLabel('Copies poured at once').press('Enter');
  await page.getByLabel('Another day shut, or with other hours').fill('2026-05-06');
  await page.getByLabel('Another day shut, or with other hours').press('Enter');
  const day = page.getByRole('group', { name: 'Bench on 2026-05-06' });
  await day.getByRole('radio', { name: 'open' }).check({ force: true });
  await day.getByLabel('to', { exact: true }).fill('12:00');
  await day.getByLabel('to', { exact: true }).press('Enter');
  await day.getByLabel('until').fill('2026-05-05');
  await day.getByLabel('until').press('Enter');
  await expect(day.getByRole('alert')).toHaveText('Last day: found 2026-05-05, before 2026-05-06; expected that day or a later one.');
  await day.getByLabel('until').press('Escape');
  await page.getByLabel('Wanted by').fill('2026-05-20T12:00');
  await page.getByLabel('Wanted by').press('Enter');
  await page.getByRole('button', { name: 'Someone sleeps in this room' }).click();
  await expect(page.getByRole('group', { name: 'Hours of sleep' })).toBeVisible();
  await expect(page.getByText('checking the heat …')).toHaveCount(0);
  expect(await violationsOf(page, 'aside')).toEqual([]);
  await page.getByRole('link', { name: 'Pours' }).click();
  await expect(page.getByText('for 3 copies (net is one’s)')).toBeVisible();
});
