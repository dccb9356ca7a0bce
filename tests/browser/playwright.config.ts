import { defineConfig } from '@playwright/test';

// The runner behind `npm test` finds the browser; software WebGL because test machines have no graphics card.
export default defineConfig({
  testDir: '.',
  outputDir: '../../.cache/browser',
  workers: 2,
  timeout: 60_000,
  reporter: [['line'], ['json']],
  use: {
    launchOptions: {
      executablePath: process.env.CHROME_PATH,
      args: ['--no-sandbox', '--use-angle=swiftshader', '--enable-unsafe-swiftshader', '--disable-background-networking', '--no-first-run'],
    },
  },
});
