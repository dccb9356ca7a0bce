/** The finish, planned on the card and read on Pours: the command's own days. */
import { readFileSync, writeFileSync } from 'node:fs';
import AxeBuilder from '@axe-core/playwright';
import { dayAndTime } from '../../src/core/units/when.ts';
import { DEMO, drop, expect, headlessPlan, openPage, test, text } from './served-page.ts';

test.use({ picture: false });

/** Heat aside: it has nothing to do with the finish, and takes seconds. */
const pond = (finishing?: object): string => JSON.stringify({ ...(JSON.parse(readFileSync(DEMO, 'utf8')) as object), name: 'Plain pond', heat: { model: 'label' }, ...(finishing && { finishing }) });

test('the finish is planned on the card, comes into the calendar, and says what is in the way', async ({ page, address }, info) => {
  await openPage(page, address);
  await drop(page, [text('pond.scene.json', pond())]);
  await expect(page.getByRole('heading', { level: 1, name: 'Plain pond' })).toBeVisible();
  const section = page.getByRole('region', { name: 'Finish' });
  await page.getByRole('navigation', { name: 'On this card' }).getByRole('button', { name: 'Finish' }).click();
  await section.getByRole('button', { name: /^Plan the finish/ }).click();
  await section.getByRole('combobox', { name: /^Top/ }).selectOption('flood-coat');
  await section.getByRole('combobox', { name: 'Sides' }).selectOption('polished');
  await section.getByRole('textbox', { name: 'Time to sand, all faces' }).fill('3');
  await section.getByRole('textbox', { name: 'Time to sand, all faces' }).press('Enter');
  await section.getByRole('textbox', { name: 'Coat, thick' }).fill('9');
  await section.getByRole('textbox', { name: 'Coat, thick' }).press('Enter');
  await expect(section.getByRole('alert')).toContainText('expected at most 4.5');
  await section.getByRole('textbox', { name: 'Coat, thick' }).press('Escape');
  const { violations } = await new AxeBuilder({ page }).include('#card-finish').withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']).analyze();
  expect(violations).toEqual([]);

  const file = info.outputPath('pond.scene.json');
  writeFileSync(file, pond({ top: 'flood-coat', sides: 'polished', hours: { sand: 3 } }));
  const plan = headlessPlan(file);
  await page.goto(`${address}#pours`);
  const list = page.getByRole('group').filter({ hasText: 'Finish, done' });
  await expect(list).toContainText(`Finish, done ${dayAndTime(plan.ready!)}`);
  await list.getByText(/^Finish, done/).click();
  const coat = plan.steps.find(({ finishing }) => finishing?.work === 'coat')!;
  await expect(list.getByRole('listitem').filter({ hasText: 'Flood coat on the top' })).toContainText(`${dayAndTime(coat.from)}. ${coat.text}`);
});
