/** What a printer's check bars measured: kept with the bench, refused where no printer could have made them so. */
import { describe, expect, it } from 'vitest';
import { setPrintBars } from '../../../src/core/scene/edit/bench.ts';
import type { SceneFile } from '../../../src/core/scene/edit/file.ts';
import { problemLine, readScene } from '../../../src/core/scene/read.ts';
import { sceneDocument } from '../sheet/made-scenes.ts';

const withBars = (printBars: unknown) => readScene(sceneDocument({ bench: { printBars } }));

describe('printed bars', () => {
  it('are read as they are measured, an axis left out as true, and known to be a field', () => {
    const reading = withBars({ xMm: 99.6 });
    expect(reading).toMatchObject({ ok: true, scene: { bench: { printBars: { xMm: 99.6, yMm: 100 } } }, notes: [] });
  });

  it.each([[{ xMm: 89.9, yMm: 100 }, 'bench.printBars.xMm'], [{ xMm: 100, yMm: 110.1 }, 'bench.printBars.yMm'], [{ xMm: '99' }, 'bench.printBars.xMm'], [7, 'bench.printBars']])('%j is refused with its path', (bars, path) => {
    const reading = withBars(bars);
    expect(reading.ok).toBe(false);
    if (!reading.ok) expect(problemLine(reading.problems[0])).toMatch(new RegExp(`^${path.replaceAll('.', '\\.')}: found .*; expected `));
  });

  it('are set and taken back as an edit, and nothing else of the bench changes', () => {
    const file = sceneDocument({ bench: { scaleG: 1, mine: 'kept' } }) as unknown as SceneFile;
    const set = setPrintBars(file, { xMm: 99.6, yMm: 100.2 });
    expect(set).toMatchObject({ ok: true, file: { bench: { scaleG: 1, mine: 'kept', printBars: { xMm: 99.6, yMm: 100.2 } } } });
    if (!set.ok) return;
    expect(setPrintBars(set.file, null)).toMatchObject({ ok: true, file: { bench: { scaleG: 1, mine: 'kept' } } });
    expect(setPrintBars(file, { xMm: 50, yMm: 100 }).ok).toBe(false);
  });
});
