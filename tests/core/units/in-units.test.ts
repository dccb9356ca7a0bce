/** 1 in is 25.4 mm and 1 US fl oz is 29.5735 mL by definition (NIST SP 811, appendix B); sentences are the plan's own. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { atLeastIn, atMostIn, inUnits, lengthIn, lengthNumber, limitIn, sizesIn, splitAtWords, volumeIn } from '../../../src/core/units/in-units.ts';

const INCHES = { length: 'in', volume: 'floz' } as const;
const METRIC = { length: 'mm', volume: 'mL' } as const;
const spaced = (text: string): string => text.replaceAll('\u00a0', ' ');
const plan = (text: string): string => spaced(inUnits(text, INCHES, { plan: true }));

describe('single amounts', () => {
  it('are written in the chosen unit', () => {
    expect([lengthIn(34.925, 'in'), lengthIn(34.9, 'mm', 2), lengthNumber(19.05, 'in'), sizesIn([203.2, 19.05], 'in'), sizesIn([203.2, 19.05], 'mm')].map(spaced)).toEqual(['1 3⁄8 in', '34.9 mm', '3⁄4', '8 in × 3⁄4 in', '203.2 × 19.1 mm']);
    expect([volumeIn(29.5735295625, 'floz'), volumeIn(29.57, 'mL'), volumeIn(1320.4, 'mL')].map(spaced)).toEqual(['1 fl oz', '29.6 mL', '1,320 mL']);
  });

  it('never show a limit looser, nor a distance to keep shorter (seed 7)', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 500, noNaN: true }), (mm) => {
        const limit = limitIn(mm, 'in');
        // Within 0.05 mm of a sixteenth it is that sixteenth.
        if (!limit.startsWith('just under ')) expect(inMm(limit)).toBeLessThanOrEqual(mm + 0.05 + 1e-9);
        expect(Number.parseFloat(limitIn(mm, 'mm'))).toBeLessThanOrEqual(mm + 1e-9);
        expect(inMm(atLeastIn(mm, 'in'))).toBeGreaterThanOrEqual(mm - 0.05 - 1e-9);
        const mark = atMostIn(mm, 'in');
        expect(mark.includes('.') ? Number.parseFloat(mark) * 25.4 : inMm(mark)).toBeLessThanOrEqual(mm + 0.05 + 1e-9);
      }),
      { seed: 7, numRuns: 500 },
    );
  });
});

describe('sentences', () => {
  it.each([
    ['Within the label’s 25\u00a0mm. Stops at 20, where Lily shadows is painted.', 'Within the label’s limit of just under 1 in. Stops at 13⁄16 in, where Lily shadows is painted.'],
    ['Within the label’s 25.4\u00a0mm. Stops at 19.05 and waits.', 'Within the label’s 1 in. Stops at 3⁄4 in and waits.'],
    ['25.4\u00a0mm is over the label’s 25\u00a0mm, so it is two pours of 12.7\u00a0mm.', '25.4 mm is over the label’s 25 mm, so it is two pours of 1⁄2 in.'],
    ['28.6\u00a0mm is over the label’s 25\u00a0mm, so it is two.', '1 1⁄8 in is over the label’s limit of just under 1 in, so it is two.'],
    ['40\u00a0mm is over the label’s 25.4\u00a0mm, so it is two.', '1 9⁄16 in is over the label’s 1 in, so it is two.'],
    ['Bevel the edges 0.5 to 1\u00a0mm. A sanded face loses 2 to 3\u00a0mm.', 'Bevel the edges 0.02 to 1⁄16 in. A sanded face loses 1⁄16 to 1⁄8 in.'],
    ['Only bubbles under 0.1\u00a0mm may stay.', 'Only bubbles under 0.004 in may stay.'],
    ['Fill pour 2 to 30\u00a0mm.', 'Fill pour 2 to 1 3⁄16 in.'],
    ['Newt rises. Over 9.6\u00a0mm deep it could float.', 'Newt rises. Over 3⁄8 in deep it could float.'],
    ['Over 10.4\u00a0mm deep it could float.', 'Over 3⁄8 in deep it could float.'],
    ['Over 1.3\u00a0mm deep it could float.', 'Over 0.05 in deep it could float.'],
    ['The top pour would be 1.5\u00a0mm. General needs 5\u00a0mm to level.', 'The top pour would be 1⁄16 in. General needs just over 3⁄16 in to level.'],
    ['Lower the stop below it from 50.8 to 47.6, raise its top from 52.3 to 55.6, or choose a formula that pours thinner.', 'Lower the stop below it from 2 to 1 7⁄8 in, raise its top from 2 1⁄16 to 2 3⁄16 in, or choose a formula that pours thinner.'],
    ['Its 12.7\u00a0mm can’t be split into pours between 6.35 and 9.5\u00a0mm: choose another formula for it.', 'Its 1⁄2 in can’t be split into pours between 1⁄4 and 3⁄8 in: choose another formula for it.'],
    ['Lower it by 2\u00a0mm, or fill to 57, if it should be covered.', 'Lower it by 1⁄16 in, or fill to 2 1⁄4 in, if it should be covered.'],
    ['box 200 × 120 × 60\u00a0mm, silicone', 'box 7 7⁄8 in × 4 3⁄4 in × 2 3⁄8 in, silicone'],
    ['Pour 2, from 20 to 25\u00a0mm. Second of two.', 'Pour 2, from 13⁄16 to 1 in. Second of two.'],
    ['Newt and Snail share 2.5\u00a0mL. It is counted once.', 'Newt and Snail share 0.08 fl oz. It is counted once.'],
    ['20\u00a0mm at once would be too warm here, where 13.9\u00a0mm are safe and the label’s 25.4\u00a0mm are not: small cup.', '13⁄16 in at once would be too warm here, where just under 9⁄16 in are safe and the label’s 1 in are not: small cup.'],
    ['Pour 2 is 20\u00a0mm deep, close to the 23.8\u00a0mm that are safe there.', 'Pour 2 is 13⁄16 in deep, close to the 15⁄16 in that are safe there.'],
    ['newt up to 25\u00a0mm', 'newt up to 1 in'],
    ['with 129 mm² of plain caps.', 'with 0.2 in² of plain caps.'],
  ])('%s', (text, expected) => expect(plan(text)).toBe(expected));

  it.each(['Room at 23\u00a0°C; bench and scale', '2:1 by weight looks like a ratio by volume.', 'viscosity 400\u00a0mPa·s, density 1.15\u00a0g/mL', 'Tacky Tue 06:00 to 21:30.', 'scuff at 320 to 600 grit, wet'])('%s stays', (text) => expect(inUnits(text, INCHES, { plan: true })).toBe(text));

  it('leaves names alone, and everything in mm and mL', () => {
    expect(spaced(inUnits('Newt 30\u00a0mm down 25.4\u00a0mm', INCHES, { keep: ['Newt 30\u00a0mm'] }))).toBe('Newt 30 mm down 1 in');
    expect(inUnits('Over 9.6\u00a0mm', METRIC)).toBe('Over 9.6\u00a0mm');
    expect(spaced(inUnits('25.4\u00a0mm and 30\u00a0mL', { length: 'in', volume: 'mL' }))).toBe('1 in and 30 mL');
    expect(inUnits('Stops at 20.', INCHES)).toBe('Stops at 20.');
  });

  it('splits at whole words, the longest first', () => {
    expect(splitAtWords('Newt 2 on Newts', ['Newt', 'Newt 2'])).toEqual(['', 'Newt 2', ' on Newts']);
    expect(splitAtWords('as it is', ['', ' '])).toEqual(['as it is']);
  });

  it('takes long text in little time', () => {
    const before = process.cpuUsage().user;
    inUnits(`${'1,'.repeat(50_000)} ${'from 1 to '.repeat(20_000)}`, INCHES, { plan: true });
    expect((process.cpuUsage().user - before) / 1000).toBeLessThan(500);
  });
});

/** mm of a length as `inches` writes it. */
function inMm(text: string): number {
  const [, whole = '', over, under] = /^(?:(\d+)\u00a0)?(?:(\d+)⁄(\d+)\u00a0)?in$/.exec(text)!;
  return (Number(whole) + (over ? Number(over) / Number(under) : 0)) * 25.4;
}
