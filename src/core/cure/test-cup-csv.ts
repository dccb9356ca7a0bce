/**
 * A logger's table of a test cup: time and temperature in two columns, apart by comma, semicolon or tab, with a header
 * or without. A header names units (`s`, `h`, `°F`); without one they are minutes and °C. Decimal commas where
 * semicolons or tabs part the columns.
 */
import { flawOf, MOST_READINGS, type CupReading } from './test-cup.ts';

export type CsvReadings = { readonly ok: true; readonly readings: readonly CupReading[] } | { readonly ok: false; readonly problem: string };



interface Columns {
  readonly time: number;
  readonly temperature: number;
  readonly timeUnit: 'min' | 's' | 'h';
  readonly fahrenheit: boolean;
}

/** No logger's line is longer. */
const LONGEST_LINE = 1000;
const PLAIN: Columns = { time: 0, temperature: 1, timeUnit: 'min', fahrenheit: false };

/** Reads it, or says by line what can't be read and what would do. */
export function readingsFromCsv(text: string): CsvReadings {
  const lines = text.replace(/^\uFEFF/, '').split(/\r\n|\n|\r/);
  const separator = separatorOf(lines);
  let columns: Columns | null = null;
  const readings: CupReading[] = [];
  for (const [i, line] of lines.entries()) {
    if (line.trim() === '') continue;
    const refuse = (message: string): CsvReadings => ({ ok: false, problem: `Line ${i + 1}: ${message}` });
    if (line.length > LONGEST_LINE) return refuse(`is ${line.length} characters long; expected a time and a temperature.`);
    const cells = line.split(separator).map((cell) => cell.trim().replace(/^"(.*)"$/, '$1').trim());
    if (!columns) {
      const header = headerOf(cells, separator);
      columns = header ?? PLAIN;
      if (header) continue;
    }
    const [timeText, temperatureText] = [cells[columns.time], cells[columns.temperature]];
    if (timeText === undefined || temperatureText === undefined) return refuse(`found "${clipped(line)}"; expected a time and a temperature, apart by comma, semicolon or tab.`);
    const min = minutesFrom(timeText, columns.timeUnit, separator);
    if (min === null) return refuse(`found "${clipped(timeText)}" as the time; expected minutes like 12.5, or h:mm.`);
    const read = temperatureFrom(temperatureText, separator);
    if (read === null) return refuse(`found "${clipped(temperatureText)}" as the temperature; expected °C like 23.5.`);
    const fahrenheit = columns.fahrenheit || /F$/i.test(temperatureText);
    const reading = { min, temperatureC: fahrenheit ? ((read - 32) * 5) / 9 : read };
    const flaw = flawOf(reading, readings[readings.length - 1]);
    if (flaw) return refuse(flaw.message);
    readings.push(reading);
    if (readings.length > MOST_READINGS) return refuse(`more than ${MOST_READINGS} readings; expected fewer. Take every tenth.`);
  }
  if (readings.length === 0) return { ok: false, problem: 'Found no readings; expected lines with a time and a temperature, like "15, 31.5".' };
  return { ok: true, readings };
}

function separatorOf(lines: readonly string[]): string {
  const first = lines.find((line) => line.trim() !== '') ?? '';
  return ['\t', ';', ','].find((candidate) => first.includes(candidate)) ?? ',';
}

/** Null: no header, the first line is a reading already. */
function headerOf(cells: readonly string[], separator: string): Columns | null {
  if (cells.some((cell) => minutesFrom(cell, 'min', separator) !== null || temperatureFrom(cell, separator) !== null)) return null;
  const temperatureNamed = cells.findIndex((cell) => /temp|°|celsius|fahrenheit|^[cf]$/i.test(cell));
  const timeNamed = cells.findIndex((cell, i) => i !== temperatureNamed && /time|min|sec|hour|^\W*(t|h|s)\b/i.test(cell));
  const time = timeNamed >= 0 ? timeNamed : temperatureNamed === 0 ? 1 : 0;
  const temperature = temperatureNamed >= 0 ? temperatureNamed : time === 0 ? 1 : 0;
  const timeName = cells[time] ?? '';
  const timeUnit = /\bs\b|\bsec/i.test(timeName) ? 's' : /\bh\b|hour/i.test(timeName) ? 'h' : 'min';
  return { time, temperature, timeUnit, fahrenheit: /°\s*F|fahrenheit|\bF\b/i.test(cells[temperature] ?? '') };
}

function minutesFrom(text: string, unit: Columns['timeUnit'], separator: string): number | null {
  const clock = /^(\d{1,4}):([0-5]\d)(?::([0-5]\d(?:\.\d+)?))?$/.exec(text);
  if (clock) return Number(clock[1]) * 60 + Number(clock[2]) + Number(clock[3] ?? 0) / 60;
  const value = numberFrom(text.replace(/\s*(min|s|h)$/i, ''), separator);
  if (value === null) return null;
  return unit === 's' ? value / 60 : unit === 'h' ? value * 60 : value;
}

function temperatureFrom(text: string, separator: string): number | null {
  return numberFrom(text.replace(/\s*°?\s*[CF]$/i, ''), separator);
}

function numberFrom(text: string, separator: string): number | null {
  const plain = separator === ',' ? text : text.replace(',', '.');
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(plain) ? Number(plain) : null;
}

function clipped(text: string): string {
  return text.length > 40 ? `${text.slice(0, 37)}…` : text;
}
