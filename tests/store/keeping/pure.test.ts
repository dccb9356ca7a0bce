import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { sha256, sha256Bytes } from '../../../src/store/keeping/sha256.ts';
import { dropped, SNAPSHOT_EVERY_MS } from '../../../src/store/keeping/thinning.ts';
import { mulberry32 } from '../../plan/random-scenes.ts';

describe('SHA-256', () => {
  // FIPS 180-4 examples (NIST, "Descriptions of SHA-256", one block and two), from memory.
  it.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    ['abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq', '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1'],
  ])('of %s', async (text, expected) => {
    const bytes = new TextEncoder().encode(text);
    expect(Buffer.from(sha256Bytes(bytes)).toString('hex')).toBe(expected);
    expect(await sha256(bytes)).toBe(expected);
  });

  it('equals node:crypto for every length over two blocks, seed 11', () => {
    const random = mulberry32(11);
    for (let length = 0; length <= 130; length++) {
      const bytes = Uint8Array.from({ length }, () => Math.floor(256 * random()));
      expect(Buffer.from(sha256Bytes(bytes)).toString('hex'), `${length} bytes`).toBe(createHash('sha256').update(bytes).digest('hex'));
    }
  });
});

describe('thinning of snapshots', () => {
  const HOUR = 3_600_000;
  const DAY = 24 * HOUR;

  it('keeps one per ten minutes, hour and day while a snapshot comes every ten minutes for 70 days', () => {
    let times: number[] = [];
    let now = 0;
    for (; now < 70 * DAY; now += SNAPSHOT_EVERY_MS) {
      times.push(now);
      const drop = new Set(dropped(times, now));
      times = times.filter((at) => !drop.has(at));
    }
    now -= SNAPSHOT_EVERY_MS;
    const aged = (from: number, to: number): number => times.filter((at) => now - at > from && now - at <= to).length;
    expect(aged(-1, HOUR)).toBe(7); // 0, 10, … 60 minutes
    // 23 whole hours, and one more where the hour's grid begins within the span.
    expect(aged(HOUR, DAY)).toBeGreaterThanOrEqual(23);
    expect(aged(HOUR, DAY)).toBeLessThanOrEqual(24);
    expect(aged(DAY, 60 * DAY)).toBeGreaterThanOrEqual(59);
    expect(aged(DAY, 60 * DAY)).toBeLessThanOrEqual(60);
    expect(aged(60 * DAY, Infinity)).toBe(0);
  });

  it('keeps the newest however old, and those of a clock that was set back', () => {
    expect(dropped([5], 400 * DAY)).toEqual([]);
    expect(dropped([5, 6], 400 * DAY)).toEqual([5]);
    expect(dropped([10 * DAY, 10 * DAY + 1], DAY)).toEqual([]);
    expect(dropped([], 0)).toEqual([]);
  });
});
