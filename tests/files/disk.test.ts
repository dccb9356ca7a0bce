/** Scene files on a disk: what lies beside the scene is found, nothing else is, and nothing waits forever. */

import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writeBundle } from '../../src/files/bundle.ts';
import { openSceneFile, SceneFileError } from '../../src/files/disk.ts';
import { utf8 } from './mesh/writers.ts';

const SCENE = '{"format":"stillpool.scene"}';
let root = '';
let folder = '';
const at = (...parts: string[]): string => join(folder, ...parts);

beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'stillpool-'));
  folder = join(root, 'pond');
  mkdirSync(at('assets'), { recursive: true });
  writeFileSync(join(root, 'secret.stl'), 'secret');
  mkdirSync(join(root, 'pond2'));
  writeFileSync(join(root, 'pond2', 'secret.stl'), 'secret');
  writeFileSync(at('a.scene.json'), `\ufeff${SCENE}`);
  writeFileSync(at('assets', 'newt.stl'), 'newt');
  symlinkSync('newt.stl', at('assets', 'inside.stl'));
  symlinkSync(join('..', '..', 'secret.stl'), at('assets', 'outside.stl'));
  symlinkSync(root, at('up'));
  symlinkSync(join(root, 'pond2'), at('sibling'));
  symlinkSync('loop', at('loop'));
  symlinkSync('/dev/zero', at('zero'));
});

afterAll(() => rmSync(root, { recursive: true, force: true }));

const refused = async (path: string): Promise<string> => {
  const error = await openSceneFile(path).then(() => undefined, (reason: unknown) => reason);
  expect(error).toBeInstanceOf(SceneFileError);
  expect((error as Error).message).not.toContain('\n');
  return (error as Error).message;
};

describe('a .scene.json', () => {
  it('finds the files beside it by relative path, also through links that stay inside', async () => {
    const files = await openSceneFile(at('a.scene.json'));
    expect(files.sceneText).toBe(SCENE);
    expect(files.file('assets/newt.stl')).toEqual(utf8('newt'));
    expect(files.file('./assets/inside.stl')).toEqual(utf8('newt'));
  });

  it('has no file where there is none', async () => {
    const files = await openSceneFile(at('a.scene.json'));
    expect(files.file('assets/none.stl')).toBeUndefined();
    expect(files.file('a.scene.json/newt.stl')).toBeUndefined();
  });

  it.each(['../secret.stl', '/etc/passwd', 'assets/../../secret.stl', 'file:///etc/passwd', 'a\0b', ''])('refuses the link %j', async (link) => {
    const files = await openSceneFile(at('a.scene.json'));
    expect(() => files.file(link)).toThrow(SceneFileError);
  });

  it.each(['assets/outside.stl', 'up/secret.stl', 'sibling/secret.stl', 'zero', 'up'])('refuses %s, a symbolic link that leads out', async (link) => {
    const files = await openSceneFile(at('a.scene.json'));
    expect(() => files.file(link)).toThrow(/leads out of the scene's folder/);
  });

  it('refuses links in a circle, and folders', async () => {
    const files = await openSceneFile(at('a.scene.json'));
    expect(() => files.file('loop')).toThrow(/lead in a circle/);
    expect(() => files.file('assets')).toThrow(/it is a folder; expected a file/);
  });

  it('refuses a mesh over 512 MB before reading it', async () => {
    writeFileSync(at('huge.stl'), '');
    truncateSync(at('huge.stl'), 600 * 2 ** 20);
    const files = await openSceneFile(at('a.scene.json'));
    expect(() => files.file('huge.stl')).toThrow(/huge\.stl: 629,145,600 bytes; expected at most 536,870,912/);
  });
});

describe('a .stillpool', () => {
  it('is opened whatever its name', async () => {
    for (const name of ['a.stillpool', 'b.scene.json']) {
      writeFileSync(at(name), writeBundle(SCENE, [['assets/newt.stl', utf8('newt')]]));
      const files = await openSceneFile(at(name));
      expect(files.sceneText).toBe(SCENE);
      expect(files.file('assets/newt.stl')).toEqual(utf8('newt'));
    }
  });

  it('named so without being a zip is refused', async () => {
    writeFileSync(at('c.stillpool'), SCENE);
    expect(await refused(at('c.stillpool'))).toMatch(/^c\.stillpool: it is not a zip/);
  });
});

describe('what is no scene file', () => {
  it('missing, a folder, below a file', async () => {
    expect(await refused(at('none.scene.json'))).toMatch(/^none\.scene\.json: there is no such file/);
    expect(await refused(folder)).toMatch(/it is a folder; expected a file/);
    expect(await refused(at('a.scene.json', 'b'))).toMatch(/there is no such file/);
    expect(await refused('a\0b')).toMatch(/can't be read/);
    expect(await refused('')).toMatch(/no such file/);
  });

  it.runIf(existsSync('/dev/zero'))('a device', async () => {
    expect(await refused('/dev/zero')).toMatch(/a device or a pipe/);
    expect(await refused(at('zero'))).toMatch(/a device or a pipe/);
  });

  it.runIf(process.platform !== 'win32')('a pipe nobody writes to, without waiting', async () => {
    execFileSync('mkfifo', [at('pipe')]);
    expect(await refused(at('pipe'))).toMatch(/a device or a pipe/);
  });

  it('too large, before reading it', async () => {
    writeFileSync(at('big.scene.json'), '{');
    truncateSync(at('big.scene.json'), 50 * 2 ** 20);
    expect(await refused(at('big.scene.json'))).toMatch(/52,428,800 bytes; expected at most 8,388,608/);
  });

  it('not UTF-8', async () => {
    writeFileSync(at('latin.scene.json'), Uint8Array.of(0x7b, 0xfc, 0x7d));
    expect(await refused(at('latin.scene.json'))).toMatch(/not UTF-8/);
  });
});
