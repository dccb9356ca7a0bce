/** Templates of made scenes, laid out with the real widths of the typefaces. */
import type { PlaneArt } from '../../../src/core/sheet/template-art.ts';
import type { TemplateFile, TemplateInput } from '../../../src/core/sheet/template-layout.ts';
import { layoutTemplates } from '../../../src/core/sheet/template-layout.ts';
import { fontsOnDisk } from '../../../src/files/fonts-disk.ts';
import { loadSheetFonts } from '../../../src/files/fonts.ts';
import { openRegions } from '../../../src/files/regions.ts';
import { make, sceneDocument } from './made-scenes.ts';

export const fonts = await loadSheetFonts(fontsOnDisk(new URL('../../..', import.meta.url).pathname), '');
export const regions = await openRegions();

/** A right triangle, a ring with a hole and a stroke, in a drawing of 120 by 80. */
export const DRAWING: PlaneArt = {
  kind: 'drawing',
  highPerWide: 2 / 3,
  leftOut: [],
  shapes: [
    { rings: [[[0.1, 0.1], [0.4, 0.1], [0.1, 0.3]]], kind: 'fill', stroke: 0 },
    { rings: [[[0.5, 0.2], [0.9, 0.2], [0.9, 0.6], [0.5, 0.6]], [[0.6, 0.3], [0.6, 0.5], [0.8, 0.5], [0.8, 0.3]]], kind: 'fill', stroke: 0 },
    { rings: [[[0.1, 0.49], [0.3, 0.59], [0.3, 0.61], [0.1, 0.51]]], kind: 'stroke', stroke: 0.02 },
  ],
};

export const PLANE = { id: 'p1', kind: 'plane', name: 'Lily shadows', atMm: 20, art: { file: 'lily.svg', widthMm: 120 } };

export function templatesOf(change: Record<string, unknown>, more: Partial<TemplateInput> = {}): TemplateFile[] {
  const { scene, plan } = make(sceneDocument({ placements: [PLANE], ...change }));
  return layoutTemplates({ scene, plan, guides: [], unseen: new Map(), art: new Map([['p1', DRAWING]]), regions, paper: 'a4', measure: fonts.measure, printable: fonts.printable, ...more });
}
