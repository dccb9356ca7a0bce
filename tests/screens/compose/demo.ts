/** The mill pond as a file to edit. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { sceneFile, type SceneFile } from '../../../src/core/scene/edit/file.ts';

const read = sceneFile(JSON.parse(readFileSync(join(import.meta.dirname, '..', '..', '..', 'assets', 'scenes', 'mill-pond.scene.json'), 'utf8')));
if (!read.ok) throw new Error('The demo scene can’t be read; see its own tests.');

export const demo: SceneFile = read.file;
