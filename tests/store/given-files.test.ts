import { describe, expect, it } from 'vitest';
import { SceneFileError, writeBundle } from '../../src/files/bundle.ts';
import { filesGiven } from '../../src/work/given-files.ts';
import { given } from './in-process.ts';

const SCENE = '{"format":"stillpool.scene"}';
const mesh = given('newt.stl', 'solid newt');

describe('files dropped together', () => {
  it('are a scene with the meshes beside it', () => {
    const files = filesGiven([mesh, given('pond.scene.json', SCENE)]);
    expect(files.sceneText).toBe(SCENE);
    expect(files.file('newt.stl')).toBe(mesh.bytes);
    expect(files.file('snail.stl')).toBeUndefined();
  });

  it('find a linked file by its last part, as a drop has no folders', () => {
    expect(filesGiven([mesh, given('pond.scene.json', SCENE)]).file('assets/newt.stl')).toBe(mesh.bytes);
  });

  it('do not guess between two files of one name, and prefer the exact path', () => {
    const other = given('pond/old/newt.stl', 'solid old');
    const exact = given('pond/assets/newt.stl', 'solid new');
    const files = filesGiven([other, exact, given('pond/pond.scene.json', SCENE)]);
    expect(files.file('assets/newt.stl')).toBe(exact.bytes);
    expect(files.file('somewhere/newt.stl')).toBeUndefined();
  });

  it('never lead out of the folder', () => {
    expect(() => filesGiven([mesh, given('pond.scene.json', SCENE)]).file('../newt.stl')).toThrow(SceneFileError);
  });

  it('may be one bundle', () => {
    const bytes = writeBundle(SCENE, [['assets/newt.stl', mesh.bytes]]);
    const files = filesGiven([{ path: 'pond.stillpool', bytes }]);
    expect(files.sceneText).toBe(SCENE);
    expect(files.file('assets/newt.stl')).toEqual(mesh.bytes);
  });

  it.each([
    ['nothing', [], 'Found no file; expected one .scene.json or one .stillpool'],
    ['a mesh alone', [mesh], 'Found newt.stl; expected one .scene.json'],
    ['two scenes', [given('a.scene.json', SCENE), given('b.scene.json', SCENE)], 'Found 2 scenes (a.scene.json, b.scene.json)'],
    ['a bundle that is no zip', [given('a.stillpool', 'no zip')], 'a.stillpool: it is not a zip'],
    ['text that is not UTF-8', [{ path: 'a.scene.json', bytes: new Uint8Array([0xff, 0xfe, 0x7b]) }], 'a.scene.json: the scene is not UTF-8 text'],
  ])('are refused: %s', (_what, files, message) => {
    expect(() => filesGiven(files)).toThrow(SceneFileError);
    expect(() => filesGiven(files)).toThrow(message);
  });

  it('take plain .json for a scene only where no .scene.json is among them', () => {
    expect(filesGiven([given('package.json', '{}'), given('pond.scene.json', SCENE)]).sceneText).toBe(SCENE);
    expect(filesGiven([given('pond.json', SCENE)]).sceneText).toBe(SCENE);
  });
});
