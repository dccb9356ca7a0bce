import { defineConfig } from '@playwright/test';

// Software drawing of the page itself is left to the processor: through a software graphics card a repaint takes ten times as long.
// The runner behind `npm test` finds the browser; software WebGL because test machines have no graphics card.
export default defineConfig({
  testDir: '.',
  outputDir: '../../.cache/browser',
  workers: 2,
  // One more try for what a starved machine spoils; the runner says which tests needed it.
  retries: 1,
  // A software renderer on two busy cores: a page of WebGL takes its time. Nothing here is a timed test.
  timeout: 240_000,
  reporter: [['line'], ['json']],
  use: {
    launchOptions: {
      executablePath: process.env.CHROME_PATH,
      args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--webgl-antialiasing-mode=none', '--disable-gpu-rasterization', '--disable-background-networking', '--no-first-run'],
    },
  },
});
