import { describe, expect, it } from 'vitest';
import { SceneFileError, writeBundle } from '../../src/files/bundle.ts';
import { openedFrom } from '../../src/work/given-files.ts';
import type { GivenFile } from '../../src/work/protocol.ts';
import { given } from './in-process.ts';

const uses = (...links: string[]): string => JSON.stringify({ format: 'stillpool.scene', placements: links.map((file) => ({ kind: 'figure', shape: { type: 'mesh', file } })) });
const SCENE = uses();
const mesh = given('newt.stl', 'solid newt');

async function textOf(files: readonly GivenFile[], path: string): Promise<string | undefined> {
  return (await openedFrom(files)).files.get(path)?.text();
}

describe('files dropped together', () => {
  it('are a scene with the meshes beside it', async () => {
    const { document, files } = await openedFrom([mesh, given('pond.scene.json', uses('newt.stl'))]);
    expect(document).toEqual(JSON.parse(uses('newt.stl')));
    expect([...files.keys()]).toEqual(['newt.stl']);
  });

  it('find a linked file by its last part, as a drop may have no folders', async () => {
    expect(await textOf([mesh, given('pond.scene.json', uses('assets/newt.stl'))], 'assets/newt.stl')).toBe('solid newt');
  });

  it('do not guess between two files of one name, and prefer the exact path', async () => {
    const other = given('pond/old/newt.stl', 'solid old');
    const exact = given('pond/assets/newt.stl', 'solid new');
    expect(await textOf([other, exact, given('pond/pond.scene.json', uses('assets/newt.stl'))], 'assets/newt.stl')).toBe('solid new');
    await expect(openedFrom([other, exact, given('pond/pond.scene.json', uses('somewhere/newt.stl'))])).rejects.toThrow('"somewhere/newt.stl"');
  });

  it('name every mesh that is missing', async () => {
    await expect(openedFrom([mesh, given('pond.scene.json', uses('newt.stl', 'a/snail.stl', 'b/crab.ply'))])).rejects.toThrow('"a/snail.stl", "b/crab.ply", and there is no such file');
  });

  it('open without a picture that is missing, and name it', async () => {
    const scene = JSON.stringify({ placements: [{ kind: 'plane', art: { file: 'art/lily.svg' } }] });
    expect((await openedFrom([given('pond.scene.json', scene)])).missing).toEqual(['art/lily.svg']);
    expect((await openedFrom([given('pond.scene.json', scene), given('lily.svg', '<svg/>')])).missing).toEqual([]);
  });

  it('never lead out of the folder', async () => {
    await expect(openedFrom([mesh, given('pond.scene.json', uses('../newt.stl'))])).rejects.toThrow(SceneFileError);
  });

  it('may be one bundle', async () => {
    const bytes = writeBundle(uses('assets/newt.stl'), [['assets/newt.stl', new TextEncoder().encode('solid newt')]]);
    expect(await textOf([given('pond.stillpool', bytes as Uint8Array<ArrayBuffer>)], 'assets/newt.stl')).toBe('solid newt');
  });

  it.each([
    ['nothing', [], 'Found no file; expected one .scene.json or one .stillpool'],
    ['a mesh alone', [mesh], 'Found newt.stl; expected one .scene.json'],
    ['two scenes', [given('a.scene.json', SCENE), given('b.scene.json', SCENE)], 'Found 2 scenes (a.scene.json, b.scene.json)'],
    ['a bundle that is no zip', [given('a.stillpool', 'no zip')], 'a.stillpool: it is not a zip'],
    ['text that is not UTF-8', [given('a.scene.json', new Uint8Array([0xff, 0xfe, 0x7b]))], 'a.scene.json: the scene is not UTF-8 text'],
  ])('are refused: %s', async (_what, files, message) => {
    await expect(openedFrom(files)).rejects.toThrow(SceneFileError);
    await expect(openedFrom(files)).rejects.toThrow(message);
  });

  it('take plain .json for a scene only where no .scene.json is among them', async () => {
    expect((await openedFrom([given('package.json', '{"other":1}'), given('pond.scene.json', SCENE)])).document).toEqual(JSON.parse(SCENE));
    expect((await openedFrom([given('pond.json', SCENE)])).document).toEqual(JSON.parse(SCENE));
  });
});
