/** What the worker finds where the page was served from: the figure library, the demo scenes, typefaces, the solid-joining library. */
import manifoldWasm from 'manifold-3d/manifold.wasm?url';
import millPond from '../../assets/scenes/mill-pond.scene.json?url';
import rockPool from '../../assets/scenes/rock-pool.scene.json?url';
import figures from '../../assets/figures/figures.json';
import { PACKED_ENDING } from '../files/figure-ending.ts';
import type { Surroundings } from './answers.ts';

const figureUrls = import.meta.glob<string>('../../assets/figures/*.ply', { query: '?packed', import: 'default', eager: true });
const fontUrls = import.meta.glob<string>(
  ['../../node_modules/@fontsource/alegreya-sans/files/alegreya-sans-*-{400,700}-normal.woff', '../../node_modules/@fontsource/alegreya/files/alegreya-*-500-italic.woff'],
  { query: '?url', import: 'default', eager: true },
);
const files: Readonly<Record<string, { readonly file: string }>> = figures;

export const served: Surroundings = {
  booleans: async () => (await import('../files/booleans.ts')).openBooleans({ wasmUrl: manifoldWasm }),
  library: {
    names: Object.keys(files),
    async read(name) {
      if (!Object.hasOwn(files, name)) return undefined;
      const { file } = files[name];
      return { bytes: await fetched(figureUrls[`../../assets/figures/${file}`], file), file: file.replace(/\.ply$/, PACKED_ENDING) };
    },
  },
  demo: async (name) => new TextDecoder().decode(await fetched(name === 'mill-pond' ? millPond : rockPool, 'the demo scene')),
  regions: async () => (await import('../files/regions.ts')).openRegions({ wasmUrl: manifoldWasm }),
  readFont: (file) => fetched(fontUrls[`../../node_modules/@fontsource/${file}`], file),
};

async function fetched(url: string | undefined, what: string): Promise<Uint8Array> {
  if (url === undefined) throw new Error(`${what} is not among the served files.`);
  let response: Response;
  try {
    response = await fetch(url);
  } catch (cause) {
    throw new Error(`${what} could not be fetched. Is \`npm start\` still running?`, { cause });
  }
  if (!response.ok) throw new Error(`${what} could not be fetched (${response.status}). Is \`npm start\` still running?`);
  return new Uint8Array(await response.arrayBuffer());
}
