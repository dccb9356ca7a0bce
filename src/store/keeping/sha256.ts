/**
 * SHA-256, hex. The browser's own where it has one; a page from a plain http server in the workshop's network has none,
 * so ours stands in. FIPS 180-4, §4.1.2 (functions), §5.1.1 (padding), §6.2.2 (rounds); constants as §4.2.2 derives
 * them, from the fractional parts of roots of the first primes.
 */

const BLOCK = 64;
const primes = firstPrimes(64);
const K = Int32Array.from(primes, (p) => fraction(p, 3));
const H0 = Int32Array.from(primes.slice(0, 8), (p) => fraction(p, 2));

export async function sha256(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  const subtle = globalThis.crypto?.subtle;
  return hex(subtle ? new Uint8Array(await subtle.digest('SHA-256', bytes)) : sha256Bytes(bytes));
}

/** 32 bytes. */
export function sha256Bytes(bytes: Uint8Array): Uint8Array {
  const h = H0.slice();
  const w = new Int32Array(BLOCK);
  const whole = bytes.length - (bytes.length % BLOCK);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  for (let at = 0; at < whole; at += BLOCK) round(h, w, view, at);
  const rest = bytes.length - whole;
  const tail = new DataView(new ArrayBuffer(rest + 9 > BLOCK ? 2 * BLOCK : BLOCK));
  for (let i = 0; i < rest; i++) tail.setUint8(i, bytes[whole + i]);
  tail.setUint8(rest, 0x80);
  tail.setUint32(tail.byteLength - 8, Math.floor(bytes.length / 2 ** 29));
  tail.setUint32(tail.byteLength - 4, (bytes.length % 2 ** 29) * 8);
  for (let at = 0; at < tail.byteLength; at += BLOCK) round(h, w, tail, at);
  const out = new DataView(new ArrayBuffer(32));
  h.forEach((word, i) => out.setInt32(4 * i, word));
  return new Uint8Array(out.buffer);
}

function round(h: Int32Array, w: Int32Array, view: DataView, at: number): void {
  for (let t = 0; t < 16; t++) w[t] = view.getInt32(at + 4 * t);
  for (let t = 16; t < 64; t++) {
    const x = w[t - 15];
    const y = w[t - 2];
    w[t] = w[t - 16] + w[t - 7] + (turned(x, 7) ^ turned(x, 18) ^ (x >>> 3)) + (turned(y, 17) ^ turned(y, 19) ^ (y >>> 10));
  }
  let a = h[0], b = h[1], c = h[2], d = h[3], e = h[4], f = h[5], g = h[6], k = h[7];
  for (let t = 0; t < 64; t++) {
    const t1 = (k + (turned(e, 6) ^ turned(e, 11) ^ turned(e, 25)) + ((e & f) ^ (~e & g)) + K[t] + w[t]) | 0;
    const t2 = ((turned(a, 2) ^ turned(a, 13) ^ turned(a, 22)) + ((a & b) ^ (a & c) ^ (b & c))) | 0;
    k = g; g = f; f = e; e = (d + t1) | 0;
    d = c; c = b; b = a; a = (t1 + t2) | 0;
  }
  h[0] += a; h[1] += b; h[2] += c; h[3] += d; h[4] += e; h[5] += f; h[6] += g; h[7] += k;
}

const turned = (word: number, by: number): number => (word >>> by) | (word << (32 - by));

/** First 32 bits of the fraction of the nth root of a prime, by whole-number root of p · 2^(32·n). */
function fraction(prime: number, n: number): number {
  const target = BigInt(prime) << BigInt(32 * n);
  let low = 0n;
  let high = 1n << 40n;
  while (high - low > 1n) {
    const middle = (low + high) >> 1n;
    if (middle ** BigInt(n) <= target) low = middle;
    else high = middle;
  }
  return Number(BigInt.asIntN(32, low));
}

function firstPrimes(count: number): number[] {
  const found: number[] = [];
  for (let n = 2; found.length < count; n++) if (found.every((p) => n % p !== 0)) found.push(n);
  return found;
}

function hex(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
