/**
 * Drawings that attack, cleaned as the page cleans them and then shown: nothing runs, nothing is asked for. And paths:
 * the browser's own idea of their inside is ours, and of drawings the paint.
 */
import { expect, test } from '@playwright/test';
import { rolldown } from 'rolldown';
import { sceneFail } from '../../src/files/fail.ts';
import { readSvgArt } from '../../src/files/svg-art.ts';
import { insideRing } from '../../src/core/sheet/polygon.ts';
import { openRegions } from '../../src/files/regions.ts';
import { SVG_ATTACKS } from '../files/svg-attacks.ts';
import { SVG_DRAWINGS, drawnAgain } from '../files/svg-drawings.ts';
import { seeded } from '../view/seeded.ts';

const regions = await openRegions();
const WIDE = 400;
const read = (svg: string) => readSvgArt(new TextEncoder().encode(svg), sceneFail('a.svg'), { widthMm: 100, strayMm: 1e-4, regions });

async function cleanerScript(): Promise<string> {
  const bundle = await rolldown({ input: new URL('../../src/screens/card/svg-clean.ts', import.meta.url).pathname, logLevel: 'silent' });
  const { output } = await bundle.generate({ format: 'iife', name: 'picture' });
  return output[0].code;
}

test('no attack gets through the cleaning of a drawing', async ({ page }) => {
  const asked: string[] = [];
  await page.route('**/*', (route) => {
    asked.push(route.request().url());
    return route.abort();
  });
  await page.setContent('<!doctype html><title>x</title><main></main>');
  await page.addScriptTag({ content: `${await cleanerScript()}; var runs = 0; function attacked() { runs++; }` });
  for (const [name, svg] of Object.entries(SVG_ATTACKS)) {
    const shown = await page.evaluate(async (text) => {
      const { cleanSvg } = (window as unknown as { picture: { cleanSvg: (svg: string) => string } }).picture;
      const clean = cleanSvg(text);
      const main = document.querySelector('main')!;
      // In the page itself, where a drawing can do far more than in a picture: then as the picture it is used as.
      main.innerHTML = clean;
      const elements = [...main.querySelectorAll('*')];
      for (const element of elements) for (const event of ['click', 'mouseover', 'load', 'begin']) element.dispatchEvent(new Event(event, { bubbles: true }));
      const image = new Image();
      image.src = URL.createObjectURL(new Blob([clean], { type: 'image/svg+xml' }));
      await image.decode().catch(() => {});
      await new Promise((done) => setTimeout(done, 30));
      return {
        clean,
        seen: main.querySelector('rect') !== null,
        bad: elements.filter((element) => /^(script|foreignObject|iframe|handler|listener|set|animate.*|a|img|body)$/i.test(element.localName)).map(({ localName }) => localName),
        handlers: elements.flatMap((element) => element.getAttributeNames()).filter((attribute) => /^on/i.test(attribute)),
        runs: (window as unknown as { runs: number }).runs,
      };
    }, svg);
    expect(shown.runs, name).toBe(0);
    expect(shown.bad, name).toEqual([]);
    expect(shown.handlers, name).toEqual([]);
    expect(shown.clean, name).not.toMatch(/attack\.invalid|javascript:|data:(?!image\/(png|jpe?g|webp))/i);
    expect(shown.seen, `${name}: the honest part of the drawing is still there`).toBe(true);
  }
  expect(asked.filter((url) => !url.startsWith('blob:'))).toEqual([]);
  // Uncleaned they do run and load here, so the checks above could have failed.
  const runs = await page.evaluate(async (all) => {
    document.querySelector('main')!.innerHTML = all.join('');
    for (const element of document.querySelectorAll('main *')) element.dispatchEvent(new Event('click'));
    await new Promise((done) => setTimeout(done, 200));
    return (window as unknown as { runs: number }).runs;
  }, Object.values(SVG_ATTACKS));
  expect(runs).toBeGreaterThan(1);
  expect(asked.some((url) => url.includes('attack.invalid'))).toBe(true);
});

test('random paths have the inside that the browser gives them, drawings the paint', async ({ page }) => {
  const random = seeded(7);
  const n = (): string => (random() * 100).toFixed(2);
  const command = (): string => {
    const kinds = [() => `L${n()} ${n()}`, () => `C${n()} ${n()} ${n()} ${n()} ${n()} ${n()}`, () => `Q${n()} ${n()} ${n()} ${n()}`, () => `S${n()} ${n()} ${n()} ${n()}`, () => `T${n()} ${n()}`, () => `A${n()} ${n()} ${n()} ${random() < 0.5 ? 0 : 1} ${random() < 0.5 ? 0 : 1} ${n()} ${n()}`, () => `h${(random() * 40 - 20).toFixed(1)}v${(random() * 40 - 20).toFixed(1)}`];
    return kinds[Math.floor(random() * kinds.length)]();
  };
  const paths = Array.from({ length: 40 }, () => `M${n()} ${n()}${command()}${command()}${command()}${command()}z`);
  const points = Array.from({ length: 200 }, (): [number, number] => [random() * 100, random() * 100]);
  const theirs = await page.evaluate(([all, at]) => {
    const pen = document.createElement('canvas').getContext('2d')!;
    return (all as string[]).map((d) => (at as [number, number][]).map(([x, y]) => pen.isPointInPath(new Path2D(d), x, y, 'evenodd')));
  }, [paths, points] as const);
  let apart = 0;
  paths.forEach((d, i) => {
    const { shapes } = read(`<svg width="100" height="100"><path fill-rule="evenodd" d="${d}"/></svg>`);
    points.forEach(([x, y], k) => {
      const inside = shapes[0].rings.reduce((odd, ring) => odd !== insideRing(ring, [x / 100, y / 100]), false);
      if (inside !== theirs[i][k]) apart++;
    });
  });
  // The browser's curves are flattened more coarsely: of 8,000 points a few lie between its chord and ours.
  expect(apart).toBeLessThan(8);

  // Whole drawings: what the page shows of them when they are cleaned is what templates draw.
  await page.addScriptTag({ content: await cleanerScript() });
  for (const [name, svg] of Object.entries(SVG_DRAWINGS)) {
    const { shapes, highPerWide } = read(svg);
    const differing = await page.evaluate(async ([text, again, wide, high]) => {
      const { cleanSvg } = (window as unknown as { picture: { cleanSvg: (svg: string) => string } }).picture;
      const [shown, ours] = await Promise.all([cleanSvg(text), again].map(async (drawing) => {
        const image = new Image();
        image.src = URL.createObjectURL(new Blob([drawing], { type: 'image/svg+xml' }));
        await image.decode();
        const pen = new OffscreenCanvas(wide, high).getContext('2d')!;
        pen.drawImage(image, 0, 0, wide, high);
        return pen.getImageData(0, 0, wide, high).data;
      }));
      return shown.filter((value, i) => i % 4 === 3 && Math.abs(value - ours[i]) > 160).length;
    }, [svg, drawnAgain(shapes, highPerWide, WIDE), WIDE, Math.round(WIDE * highPerWide)] as const);
    // Lengths along curves, and so the ends of dashes, are the browser's to a few thousandths.
    expect(differing, name).toBeLessThanOrEqual(name.startsWith('dashes') ? 200 : 0);
  }
});
