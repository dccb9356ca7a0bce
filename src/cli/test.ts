/** `npm test`: types, lint, unit, property, reference and browser tests, in that order, with one closing count. */
import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { findBrowser } from './browser.ts';
import { projectRoot } from './library.ts';

interface Count {
  passed: number;
  failed: number;
}

/** Exit code: 0 when everything passed. `args` are passed on to the unit tests' runner, which then runs alone. */
export async function main(args: string[]): Promise<number> {
  const total: Count = { passed: 0, failed: 0 };
  const add = (name: string, { passed, failed }: Count) => {
    total.passed += passed;
    total.failed += failed;
    console.error(`— ${name}: ${passed} passed, ${failed} failed`);
  };
  if (args.length === 0) {
    const types = run('tsc', ['--noEmit', '-p', '.']);
    const lint = run('eslint', ['--config', 'tests/eslint.config.js', '--max-warnings', '0', 'src', 'tests', 'vite.config.ts']);
    add('types', one(await types));
    add('lint', one(await lint));
  }
  add('unit, property and reference tests', await unitTests(args));
  if (args.length === 0) add('browser tests', await browserTests());
  // The plain line that any reader of the output can look for.
  process.stdout.write(`${total.passed} passed, ${total.failed} failed\n`);
  return total.failed === 0 && total.passed > 0 ? 0 : 1;
}

async function unitTests(args: string[]): Promise<Count> {
  const report = reportFile('unit.json');
  const status = await run('vitest', ['run', '--config', 'tests/vitest.config.ts', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`, ...args]);
  if (!existsSync(report)) return { passed: 0, failed: 1 };
  const { numPassedTests, numFailedTests, numTotalTests, success } = JSON.parse(readFileSync(report, 'utf8'));
  const failed = Math.max(numFailedTests, numTotalTests - numPassedTests, status === 0 && success ? 0 : 1);
  return { passed: numPassedTests, failed };
}

async function browserTests(): Promise<Count> {
  const browser = await findBrowser();
  if (!browser) {
    console.error('No browser for the browser tests was found. Install one (Debian: apt-get install -y chromium) or set CHROME_PATH.');
    return { passed: 0, failed: 1 };
  }
  const report = reportFile('browser.json');
  const status = await run('playwright', ['test', '--config', 'tests/browser/playwright.config.ts'], { CHROME_PATH: browser.path, ...browser.env, PLAYWRIGHT_JSON_OUTPUT_NAME: report });
  if (!existsSync(report)) return { passed: 0, failed: 1 };
  const { stats } = JSON.parse(readFileSync(report, 'utf8'));
  if (stats.flaky > 0) console.error(`${stats.flaky} browser tests passed only at the second try; see above which.`);
  return { passed: stats.expected + stats.flaky, failed: Math.max(stats.unexpected + stats.skipped, status === 0 ? 0 : 1) };
}

function reportFile(name: string): string {
  const folder = join(projectRoot(), '.cache', 'reports');
  mkdirSync(folder, { recursive: true });
  rmSync(join(folder, name), { force: true });
  return join(folder, name);
}

const TOOLS = {
  tsc: 'typescript/bin/tsc',
  eslint: 'eslint/bin/eslint.js',
  vitest: 'vitest/vitest.mjs',
  playwright: '@playwright/test/cli.js',
} as const;

/** Runs an installed tool; its output goes to ours. Gives its exit code. */
function run(tool: keyof typeof TOOLS, args: string[], env: Record<string, string> = {}): Promise<number> {
  const child = spawn(process.execPath, [join(projectRoot(), 'node_modules', TOOLS[tool]), ...args], {
    cwd: projectRoot(),
    stdio: 'inherit',
    env: { ...process.env, ...env },
  });
  return new Promise((ended) => {
    child.once('error', () => ended(1));
    child.once('close', (status) => ended(status ?? 1));
  });
}

function one(status: number): Count {
  return status === 0 ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}
