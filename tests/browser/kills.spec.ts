import { expect, test } from '@playwright/test';
import { kills } from './kills/kills.ts';

/** Three in `npm test`; all of them with STILLPOOL_KILLS=100. */
const COUNT = Number(process.env.STILLPOOL_KILLS ?? 3);
const SEED = Number(process.env.STILLPOOL_KILLS_SEED ?? 4);
/** ms for one kill with its start, on a busy machine. */
const KILL_MS = 30_000;

test(`no edit older than a second is lost over ${COUNT} kills of the browser, seed ${SEED}`, async () => {
  test.setTimeout((COUNT + 1) * KILL_MS);
  const report = await kills(COUNT, SEED, (kill) => {
    if (COUNT > 10) console.error(`killed ${kill} of ${COUNT}`);
  });
  if (COUNT > 10) console.error(JSON.stringify(report));
  expect(report).toMatchObject({ kills: COUNT, lostOlderThanASecond: 0, keptButLost: 0, torn: 0 });
  expect(report.editsMade).toBeGreaterThan(COUNT);
});
