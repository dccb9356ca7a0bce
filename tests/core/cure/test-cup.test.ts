/** Test cups as a scene holds them and as loggers write them: read, or refused by path or line with nothing lost. */
import { describe, expect, it } from 'vitest';
import { readingsFromCsv } from '../../../src/core/cure/test-cup-csv.ts';
import { readTestCups } from '../../../src/core/cure/test-cup.ts';

const CUP = { formula: 'low', massG: 100, cup: 'paper', roomC: 22, readings: [{ min: 0, temperatureC: 22 }, { min: 15, temperatureC: 24.5 }] };

describe('test cups of a scene', () => {
  it('are read as they are; the cup is plastic where none is named', () => {
    expect(readTestCups([CUP])).toEqual({ cups: [CUP], problems: [] });
    const { cup: _cup, ...unnamed } = CUP;
    expect(readTestCups([unnamed]).cups[0].cup).toBe('plastic');
    expect(readTestCups(undefined)).toEqual({ cups: [], problems: [] });
  });

  it.each([
    [{ ...CUP, massG: -3 }, 'testCups[0].massG', /found -3; expected a number from 1 to 100000 g/],
    [{ ...CUP, massG: undefined }, 'testCups[0].massG', /is missing/],
    [{ ...CUP, formula: '' }, 'testCups[0].formula', /expected the id of a formula/],
    [{ ...CUP, cup: 'bucket' }, 'testCups[0].cup', /found "bucket"; expected one of "plastic"/],
    [{ ...CUP, roomC: 'warm' }, 'testCups[0].roomC', /found "warm"; expected a number from -20 to 60 °C/],
    [{ ...CUP, readings: [] }, 'testCups[0].readings', /found a list of 0; expected a list of 1 to/],
    [{ ...CUP, readings: [{ min: 5, temperatureC: 22 }, { min: 5, temperatureC: 23 }] }, 'testCups[0].readings[1].min', /found 5 after 5/],
    [{ ...CUP, readings: [{ min: 5, temperatureC: 900 }] }, 'testCups[0].readings[0].temperatureC', /found 900; expected -40 to 400 °C/],
    [{ ...CUP, readings: [{ min: Number.NaN, temperatureC: 20 }] }, 'testCups[0].readings[0].min', /expected minutes since mixing/],
    [{ ...CUP, readings: [{ atMin: 5, temperatureC: 22 }] }, 'testCups[0].readings[0].min', /^is missing; expected minutes since mixing.* There is "atMin", which is not known: spell the fields min, temperatureC\.$/],
    [{ ...CUP, massG: undefined, grams: 100 }, 'testCups[0].massG', /^is missing; .* There is "grams", which is not known: spell the fields formula, massG, cup, roomC, readings\.$/],
    [{ ...CUP, readings: [7] }, 'testCups[0].readings[0]', /found 7; expected \{ min, temperatureC \}/],
    [3, 'testCups[0]', /found 3; expected an object/],
  ])('%#: are refused by path', (cup, path, message) => {
    const { cups, problems } = readTestCups([cup, CUP]);
    expect(cups).toEqual([CUP]);
    expect(problems.map((problem) => problem.path)).toEqual([path]);
    expect(problems[0].message).toMatch(message);
  });

  it('that are no list are said to be none', () => {
    expect(readTestCups({}).problems).toEqual([{ path: 'testCups', message: 'found {}; expected a list of at most 200 test cups.' }]);
  });
});

describe('a logger’s table', () => {
  const readings = [
    { min: 0, temperatureC: 22.5 },
    { min: 90, temperatureC: 31 },
  ];

  it.each([
    ['comma, no header', '0,22.5\n90,31\n'],
    ['semicolons and decimal commas', 'Minuten;Temp °C\r\n0;22,5\r\n90,0;31,0\r\n'],
    ['tabs and a byte-order mark', '\uFEFFtime (min)\ttemperature\n0\t22.5\n90\t31'],
    ['hours and minutes', '0:00, 22.5\n1:30, 31'],
    ['seconds by the header', 'Time (s),T (°C)\n0,22.5\n5400,31'],
    ['hours by the header', 'h;°C\n0;22.5\n1,5;31'],
    ['degrees Fahrenheit by the header', 'min,temp °F\n0,72.5\n90,87.8'],
    ['columns the other way, by the header', 'temperature °C,time min\n22.5,0\n31,90'],
    ['units in the cells, quoted', '"0 min","22.5 °C"\n"90 min","87.8 °F"'],
    ['empty lines and a column more', '\n0,22.5,ok\n\n90,31,ok\n\n'],
  ])('%s', (_name, text) => {
    const read = readingsFromCsv(text);
    expect(read.ok).toBe(true);
    if (!read.ok) return;
    expect(read.readings.length).toBe(2);
    read.readings.forEach((reading, i) => {
      expect(reading.min).toBeCloseTo(readings[i].min, 9);
      expect(reading.temperatureC).toBeCloseTo(readings[i].temperatureC, 9);
    });
  });

  it.each([
    ['', /no readings; expected lines with a time and a temperature/],
    ['time,temp\n', /no readings/],
    ['0,22\nlater,23\n', /^Line 2: found "later" as the time; expected minutes like 12.5, or h:mm/],
    ['0,22\n10,warm\n', /^Line 2: found "warm" as the temperature/],
    ['0,22\n10\n', /^Line 2: found "10"; expected a time and a temperature/],
    ['0,22\n10,23\n5,24\n', /^Line 3: found 5 after 10; expected readings one after the other/],
    ['0,22\n10,5000\n', /^Line 2: found 5000; expected -40 to 400 °C/],
    [`0,22\n${'x'.repeat(2000)}`, /^Line 2: is 2000 characters long/],
    ['2026-05-04 08:00,22\n', /^Line 1: found "2026-05-04 08:00" as the time/],
  ])('%#: says by line what it can’t read', (text, problem) => {
    const read = readingsFromCsv(text);
    expect(read.ok ? '' : read.problem).toMatch(problem);
  });
});
