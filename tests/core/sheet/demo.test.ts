/** The demo scenes, whole: read, planned, outlined, laid out. */
import { describe, expect, it } from 'vitest';
import { openFigureLibrary } from '../../../src/cli/library.ts';
import { simulatedHeat } from '../../../src/core/plan/heat-simulated.ts';
import { planScene } from '../../../src/core/plan/plan-scene.ts';
import type { TextItem } from '../../../src/core/sheet/document.ts';
import { LIVE_HEIGHT_MM, LIVE_WIDTH_MM, flatItems, textBox } from '../../../src/core/sheet/document.ts';
import { boxOf } from '../../../src/core/sheet/polygon.ts';
import { openBooleans } from '../../../src/files/booleans.ts';
import { openSceneFile } from '../../../src/files/disk.ts';
import { fontsOnDisk } from '../../../src/files/fonts-disk.ts';
import { loadScene } from '../../../src/files/load.ts';
import { sheetDocument, silhouettesOf } from '../../../src/files/sheet-document.ts';

const ROOT = new URL('../../..', import.meta.url).pathname;
/** mm. Boxes are em boxes, drawn letters smaller: touching by less than a hair line is no overlap. */
const HAIR_MM = 0.1;
/** mm. An outline's corners are cut by a cell at most, its points stray by the simplification. */
const OUTLINE_MM = 0.25;

describe.each(['mill-pond', 'rock-pool'])('the sheet of %s', async (name) => {
  const booleans = await openBooleans();
  const loading = await loadScene(await openSceneFile(`${ROOT}assets/scenes/${name}.scene.json`), openFigureLibrary(), booleans);
  if (!loading.ok) throw new Error(JSON.stringify(loading.problems));
  const { scene, meshes } = loading.loaded;
  const result = planScene(scene, { ...loading.loaded, booleans, heat: simulatedHeat(loading.loaded.scene.testCups) });
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  const { plan } = result;
  const { document } = await sheetDocument({ scene, meshes, plan, paper: 'a4', readFont: fontsOnDisk(ROOT) });

  const inInches = (await sheetDocument({ scene, meshes, plan, paper: 'letter', units: { length: 'in', volume: 'floz' }, readFont: fontsOnDisk(ROOT) })).document;

  it.each([['mm', document], ['inches', inInches]])('keeps every text apart from every other and in the live area, in %s', (_units, { pages }) => {
    for (const [i, page] of pages.entries()) {
      const boxes = flatItems(page.items).filter((item): item is TextItem => item.kind === 'text').map((item) => ({ text: item.text, ...textBox(item) }));
      boxes.forEach((a, k) => {
        expect(a.x0 >= -HAIR_MM && a.x1 <= LIVE_WIDTH_MM + HAIR_MM && a.y0 >= -HAIR_MM && a.y1 <= LIVE_HEIGHT_MM + HAIR_MM, `page ${i + 1}: “${a.text}”`).toBe(true);
        for (const b of boxes.slice(k + 1)) {
          const apart = a.x1 <= b.x0 + HAIR_MM || b.x1 <= a.x0 + HAIR_MM || a.y1 <= b.y0 + HAIR_MM || b.y1 <= a.y0 + HAIR_MM;
          expect(apart, `page ${i + 1}: “${a.text}” overlaps “${b.text}”`).toBe(true);
        }
      });
    }
  });

  it.each([['mm', document], ['inches', inInches]])('keeps each pour and the finish on one page, in %s', (_units, { pages }) => {
    for (const { index } of plan.pours) expect(pages.filter(({ pour }) => pour === index), `pour ${index}`).toHaveLength(1);
    expect(pages.filter(({ kind }) => kind === 'finish')).toHaveLength(1);
  });

  it('outlines every figure at its own height', () => {
    const outlines = silhouettesOf(scene, meshes);
    for (const { id, baseMm, topMm } of plan.placements) {
      const bounds = boxOf(outlines.get(id)!.map(({ outer }) => outer));
      expect(Math.abs(bounds.y0 - baseMm), id).toBeLessThan(OUTLINE_MM);
      expect(Math.abs(bounds.y1 - topMm), id).toBeLessThan(OUTLINE_MM);
    }
  });
});
