import AxeBuilder from '@axe-core/playwright';
import { listenOn, pageServer } from '../../src/cli/start.ts';
import { expect, openPage, test } from './served-page.ts';

test.use({ demoHeat: 'simulated' });

const SIZES = [{ width: 1440, height: 900 }, { width: 390, height: 844 }] as const;
/** px. Look: nothing written smaller on screen, no target smaller; tags that fan out are the one exception. */
const LEAST_TEXT_PX = 14;
const LEAST_TARGET_PX = 44;

for (const size of SIZES) {
  for (const colorScheme of ['light', 'dark'] as const) {
    test(`reads well at ${size.width} × ${size.height}, ${colorScheme}`, async ({ browser, address }) => {
      const context = await browser.newContext({ viewport: size, colorScheme });
      const page = await context.newPage();
      // Paper looks the same in both schemes, and its thousands of marks take long to check.
      const hashes = (colorScheme === 'dark') === (size.width < 800) ? ['#pours', '#sheet'] : ['#pours'];
      for (const hash of hashes) {
        await openPage(page, address, hash);
        if (hash === '#sheet') await expect(page.getByRole('group', { name: /^Page 1: / })).toBeVisible();
        const { violations } = await new AxeBuilder({ page }).withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice']).analyze();
        expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ').slice(0, 300)}`)).toEqual([]);
        if (hash === '#pours') {
          await page.getByRole('button', { name: 'Files' }).click();
          const files = await new AxeBuilder({ page }).include('dialog').withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa']).analyze();
          expect(files.violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ').slice(0, 300)}`)).toEqual([]);
          await page.keyboard.press('Escape');
          await expect(page.getByRole('dialog')).toHaveCount(0);
        }
        expect(await page.evaluate(() => document.documentElement.scrollWidth), 'nothing sticks out sideways').toBeLessThanOrEqual(size.width);
      }
      await context.close();
    });
  }

  test(`text and targets are large enough at ${size.width} × ${size.height}`, async ({ page, address }) => {
    await page.setViewportSize(size);
    await openPage(page, address, '#pours');
    const small = await page.evaluate((least) => {
      const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
      const found: string[] = [];
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const parent = node.parentElement!;
        if (node.textContent!.trim() && parent.getClientRects().length > 0 && parseFloat(getComputedStyle(parent).fontSize) < least) found.push(node.textContent!);
      }
      return found;
    }, LEAST_TEXT_PX);
    expect(small).toEqual([]);
    for (const target of await page.getByRole('button').or(page.getByRole('link')).all()) {
      const box = (await target.boundingBox())!;
      const name = (await target.getAttribute('aria-label')) ?? (await target.textContent());
      const onGauge = / up(,|$)/.test(name ?? '');
      expect(box.height, `height of ${name}`).toBeGreaterThanOrEqual(onGauge ? 24 : LEAST_TARGET_PX);
      expect(box.width, `width of ${name}`).toBeGreaterThanOrEqual(LEAST_TARGET_PX);
    }
  });
}

test('the server sends the content policy and nothing from outside its folder', async ({ request, address }) => {
  const page = await request.get(address);
  expect(page.headers()['content-security-policy']).toContain("default-src 'none'");
  expect(page.headers()['content-security-policy']).not.toContain('unsafe-inline');
  for (const path of ['../package.json', '%2e%2e/package.json', '..%2fpackage.json', 'assets/../../package.json', '%00', '%zz']) {
    expect((await request.get(address + path)).status(), path).toBe(404);
  }
  expect((await request.post(address)).status()).toBe(405);
});

test('works from a folder of a server', async ({ browser, files }) => {
  const server = pageServer(files, '/pond/');
  const port = await listenOn(server, 0);
  const page = await browser.newPage();
  await openPage(page, `http://127.0.0.1:${port}/pond/`, '#sheet');
  await expect(page.getByRole('group', { name: /^Page 1: / })).toBeVisible();
  await page.close();
  server.closeAllConnections();
  server.close();
});
