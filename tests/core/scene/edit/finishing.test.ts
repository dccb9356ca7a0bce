import { describe, expect, it } from 'vitest';
import type { EditResult, SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { clearFinishHours, finishOf, isCoated, leaveFinish, planFinish, setBase, setCoat, setEdge, setFace, setFinishCost, setFinishHours, setWarmRest, USUAL_FINISH } from '../../../../src/core/scene/edit/finishing.ts';
import { setMoldShape } from '../../../../src/core/scene/edit/mold.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import type { Finishing } from '../../../../src/core/scene/scene.ts';
import { frozen, pond } from './made-files.ts';

function made(result: EditResult): SceneFile {
  if (!result.ok) throw new Error(result.reason);
  return frozen(result.file);
}

function read(file: SceneFile): Finishing | undefined {
  const reading = readScene(JSON.parse(JSON.stringify(file)));
  if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
  return reading.scene.finishing;
}

const planned = made(planFinish(pond()));

describe('the finish as it is edited', () => {
  it('is not planned until someone asks, and leaves no trace when it is left', () => {
    expect(read(pond())).toBeUndefined();
    expect(read(planned)).toMatchObject({ top: 'as-cast', sides: 'as-cast', bottom: 'as-cast', base: 'none', ...USUAL_FINISH });
    expect(made(leaveFinish(planned))).toEqual(pond());
    expect(setEdge(pond(), 1)).toMatchObject({ ok: false });
  });

  it('sets faces, edges, base, coat and hours, each by itself', () => {
    let file = made(setFace(planned, 'top', 'flood-coat'));
    file = made(setFace(file, 'sides', 'polished'));
    file = made(setBase(made(setEdge(file, 1)), 'felt'));
    file = made(setCoat(made(setCoat(file, { mm: 3 })), { formula: 'general' }));
    file = made(setFinishHours(made(setFinishHours(file, 'sand', 2)), 'coat', 0.75));
    file = made(setFinishCost(file, 14));
    expect(isCoated(file)).toBe(true);
    expect(finishOf(file)).toEqual({ top: 'flood-coat', sides: 'polished', edgeMm: 1, base: 'felt', coat: { mm: 3, formula: 'general' }, hours: { sand: 2, coat: 0.75 }, cost: 14 });
    expect(read(made(clearFinishHours(file)))!.hours).toEqual({});
  });

  it('begins a warm rest with the trade’s, and takes a label’s limit in and out', () => {
    const warm = made(setWarmRest(planned, {}));
    expect(read(warm)!.postCure).toEqual({ temperatureC: 50, hours: 6 });
    const told = made(setWarmRest(made(setWarmRest(warm, { temperatureC: 60 })), { labelC: 65 }));
    expect(read(told)!.postCure).toEqual({ temperatureC: 60, hours: 6, labelC: 65 });
    expect(read(made(setWarmRest(told, { labelC: null })))!.postCure).toEqual({ temperatureC: 60, hours: 6 });
    expect(read(made(setWarmRest(told, null)))!.postCure).toBeUndefined();
  });

  it('keeps to the label of the coat, in words, and loses nothing', () => {
    const coated = made(setFace(planned, 'top', 'flood-coat'));
    expect(setCoat(coated, { mm: 5 })).toMatchObject({ ok: false, reason: expect.stringContaining('found 5 mm; expected at most 4.5 mm') });
    expect(setFinishHours(coated, 'sand', -1)).toMatchObject({ ok: false, reason: expect.stringContaining('expected') });
    // A round side can't be coated: the plan tells it, the shape is not refused.
    expect(setMoldShape(made(setFace(coated, 'sides', 'flood-coat')), 'round').ok).toBe(true);
  });
});
