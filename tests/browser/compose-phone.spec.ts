/** Compose by finger on a phone, and how it reads in every paper and size. */
import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, openPage, test } from './served-page.ts';

const PHONE = { width: 390, height: 844 };
/** px. Look: nothing written smaller on screen. */
const LEAST_TEXT_PX = 14;
/** px. WCAG 2.2, 2.5.8; things on the gauge lie as they lie in the mold, and the card reaches all of them. */
const LEAST_ON_GAUGE_PX = 24;
const LEAST_TARGET_PX = 44;

const card = (page: Page) => page.getByRole('complementary', { name: 'Card' });
const onGauge = (page: Page, name: string) => page.getByRole('group', { name: 'Things on the gauge' }).getByRole('button', { name, exact: true });

test('the clip follows a finger on a phone', async ({ browser, address }) => {
  const context = await browser.newContext({ viewport: PHONE, hasTouch: true, isMobile: true });
  const page = await context.newPage();
  await openPage(page, address, '#compose');
  await onGauge(page, 'Newt').tap();
  await expect(card(page).getByRole('textbox', { name: 'Name' })).toHaveValue('Newt');
  const half = page.getByRole('group', { name: 'Height of Newt' }).getByRole('button', { name: /far up/ });
  const box = (await half.boundingBox())!;
  const finger = await context.newCDPSession(page);
  const at = (dy: number) => [{ x: box.x + box.width / 2, y: box.y + box.height / 2 + dy }];
  await finger.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints: at(0) });
  for (const dy of [-10, -30, -50]) await finger.send('Input.dispatchTouchEvent', { type: 'touchMove', touchPoints: at(dy) });
  await finger.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  const undo = page.getByRole('button', { name: /^Undo: newt up to/ });
  await expect(undo).toBeVisible();
  await expect(card(page).getByRole('textbox', { name: 'Feet, up from the floor' })).not.toHaveValue('20\u00a0mm');
  const slip = (await card(page).boundingBox())!;
  expect(slip.height, 'the slip takes at most two fifths').toBeLessThanOrEqual(0.4 * PHONE.height + 1);
  await page.evaluate(() => scrollTo(0, 0));
  const way = (await undo.boundingBox())!;
  expect(way.y + way.height, 'the way back lies free of the slip').toBeLessThanOrEqual(slip.y);
  await context.close();
});

/** Puts away what is open, or else lets go of what is selected. */
async function escape(page: Page): Promise<void> {
  await page.keyboard.press('Escape');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await expect(page.getByRole('group', { name: /^Height of/ })).toHaveCount(0);
}

async function pressOutline(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Outline', exact: true }).click();
}

interface State {
  readonly name: string;
  readonly reach: (page: Page) => Promise<void>;
  /** Back to the piece with nothing open over it; without it, the next state is reached from this one. */
  readonly leave?: (page: Page) => Promise<void>;
}

const STATES: readonly State[] = [
  { name: 'nothing selected', reach: async () => {} },
  { name: 'a figure', reach: async (page) => onGauge(page, 'Newt').click(), leave: escape },
  { name: 'a plane', reach: async (page) => onGauge(page, 'Lily shadows').click(), leave: escape },
  { name: 'the outline', reach: pressOutline, leave: pressOutline },
  { name: 'the figures', reach: async (page) => page.getByRole('button', { name: 'a figure' }).click(), leave: escape },
  { name: 'the beds', reach: async (page) => page.getByRole('button', { name: 'a bed' }).click(), leave: escape },
  {
    name: 'what a label says',
    reach: async (page) => {
      await card(page).getByRole('button', { name: 'Formulas' }).click();
      await card(page).getByRole('button', { name: 'General casting (typical)' }).click();
      await card(page).getByText('The rest, typical of its class').click();
      // Scrolled anywhere else, the slip's handle lies over half a field.
      await card(page).evaluate((place) => place.scrollTo(0, 0));
    },
    // Another screen and back: the card is the piece's again.
    leave: async (page) => {
      await page.goto(`${page.url().split('#')[0]}#pours`);
      await page.goto(`${page.url().split('#')[0]}#compose`);
    },
  },
  {
    name: 'the three questions',
    reach: async (page) => {
      await page.getByRole('button', { name: 'Files' }).click();
      await page.getByRole('button', { name: 'Start a new piece' }).click();
    },
  },
];

/** A window of 1440 × 900 with its text at 200 %. */
const TWICE = { width: 720, height: 450 };

for (const size of [{ width: 1440, height: 900 }, PHONE, TWICE]) {
  for (const colorScheme of size === TWICE ? (['light'] as const) : (['light', 'dark'] as const)) {
    test(`reads well at ${size.width} × ${size.height}, ${colorScheme}`, async ({ browser, address }) => {
      const context = await browser.newContext({ viewport: size, colorScheme, reducedMotion: 'reduce' });
      const page = await context.newPage();
      await openPage(page, address, '#compose');
      await expect(onGauge(page, 'Lily pads')).toBeVisible();
      for (const { name, reach, leave } of STATES) {
        await reach(page);
        const axe = new AxeBuilder({ page });
        // The dark paper differs from the light in its colors alone.
        if (colorScheme === 'dark') axe.withRules(['color-contrast']);
        else axe.withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice']);
        // The phone's clip, and in a low window a figure's bar, lie over part of a thin pour. That pour is also chosen in Pours (WCAG 2.5.8, equivalent).
        if (size === TWICE || (size === PHONE && name.startsWith('a '))) axe.exclude('.band-button');
        const { violations } = await axe.analyze();
        expect(violations.map(({ id, nodes }) => `${name}, ${id}: ${nodes.map(({ html }) => html).join(' ').slice(0, 400)}`)).toEqual([]);
        expect(await page.evaluate(() => document.documentElement.scrollWidth), `${name}: nothing sticks out sideways`).toBeLessThanOrEqual(size.width);
        expect(await smallText(page), name).toEqual([]);
        expect(await smallTargets(page), name).toEqual([]);
        await leave?.(page);
      }
      await context.close();
    });
  }
}

async function smallText(page: Page): Promise<string[]> {
  return page.evaluate((least) => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const found: string[] = [];
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const parent = node.parentElement!;
      if (node.textContent!.trim() && parent.getClientRects().length > 0 && parseFloat(getComputedStyle(parent).fontSize) < least) found.push(node.textContent!);
    }
    return found;
  }, LEAST_TEXT_PX);
}

/** Buttons, links and fields that a finger would miss. Those inside a hidden label are pressed by their words. */
async function smallTargets(page: Page): Promise<string[]> {
  return page.evaluate(({ least, onGaugeLeast }) => {
    const found: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>('.compose :is(button, a, input, select, summary)')) {
      const { width, height } = element.getBoundingClientRect();
      if (width === 0 || element.closest('.hidden, .skip') || element.matches('input[type=checkbox]')) continue;
      const limit = element.closest('.gauge') ? onGaugeLeast : least;
      if (height < limit - 0.5 || width < Math.min(limit, 44) - 0.5) found.push(`${element.getAttribute('aria-label') ?? element.textContent ?? element.id} ${Math.round(width)} × ${Math.round(height)}`);
    }
    return found;
  }, { least: LEAST_TARGET_PX, onGaugeLeast: LEAST_ON_GAUGE_PX });
}
