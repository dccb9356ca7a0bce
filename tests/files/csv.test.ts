/** The table of pours: against RFC 4180's own examples, and read back by its grammar. */
import { describe, expect, it } from 'vitest';
import { readScene } from '../../src/core/scene/read.ts';
import { csv, poursCsv } from '../../src/files/csv.ts';
import { planOf, scene, TL } from '../plan/planning.ts';

/** RFC 4180 §2 as one expression: a field is quoted, with doubled quotes, or holds no quote, comma or break. */
function rowsOf(file: string): string[][] {
  const rows: string[][] = [];
  const field = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/gy;
  let row: string[] = [];
  for (let found = field.exec(file); found; found = field.exec(file)) {
    row.push(found[1]?.replace(/""/g, '"') ?? found[2]);
    if (found[3] === '\r\n') {
      rows.push(row);
      row = [];
    }
    if (field.lastIndex === file.length) return rows;
  }
  throw new Error(`not RFC 4180 at ${rows.length + 1}`);
}

const read = (document: object) => {
  const reading = readScene(document);
  if (!reading.ok) throw new Error('refused');
  return reading.scene;
};

describe('the table of pours', () => {
  it('writes the examples of RFC 4180 §2 (5 to 7)', () => {
    expect(csv([['aaa', 'b\r\nbb', 'ccc'], ['zzz', 'yyy', 'xxx']])).toBe('aaa,"b\r\nbb",ccc\r\nzzz,yyy,xxx\r\n');
    expect(csv([['aaa', 'b"bb', 'ccc']])).toBe('aaa,"b""bb",ccc\r\n');
  });

  it('has a row a pour with the plan’s own numbers', () => {
    const document = scene({ fillMm: 44, formulas: [{ ...TL, name: 'Clear "slow", 2:1' }] });
    const plan = planOf(document);
    const [head, ...rows] = rowsOf(poursCsv(read(document), plan));
    expect(rows).toHaveLength(plan.pours.length);
    const at = (row: string[], title: string) => row[head.indexOf(title)];
    rows.forEach((row, i) => {
      expect(row).toHaveLength(head.length);
      expect(at(row, 'formula')).toBe('Clear "slow", 2:1');
      expect(Number(at(row, 'mix (mL)'))).toBeCloseTo(plan.pours[i].mixMl, 3);
      expect(Number(at(row, 'part B, hardener (g)'))).toBeCloseTo(plan.pours[i].partB.g, 3);
      expect(at(row, 'starts')).toBe(plan.pours[i].starts);
      expect(at(row, 'do not pour')).toBe('');
    });
  });

  it('gives no amounts for a pour that is halted, and why', () => {
    const document = scene({ fillMm: 2.9 });
    const plan = planOf(document);
    const [head, row] = rowsOf(poursCsv(read(document), plan));
    expect(row[head.indexOf('do not pour')]).toContain(`DO NOT POUR. ${plan.findings[0].message}`);
    for (const title of head.filter((name) => /^(mix|part|scale|dye|cups|usable)/.test(name))) expect(row[head.indexOf(title)], title).toBe('');
  });

  it('lets no name start a spreadsheet’s sum', () => {
    expect(csv([['=1+1', '@x', '-2', '+3', 'a=b', -4]])).toBe("'=1+1,'@x,'-2,'+3,a=b,-4\r\n");
  });

  it('has a row a flood coat after the pours, without amounts where it must not be poured', () => {
    const document = scene({ fillMm: 44 });
    const asked = { ...document, finishing: { top: 'flood-coat', bottom: 'flood-coat' } };
    const plan = planOf(asked);
    const [head, ...rows] = rowsOf(poursCsv(read(asked), plan));
    const coats = rows.slice(plan.pours.length);
    const at = (row: string[], title: string) => row[head.indexOf(title)];
    expect(coats.map((row) => at(row, 'pour'))).toEqual(['flood coat, bottom', 'flood coat, top']);
    coats.forEach((row, i) => {
      expect(Number(at(row, 'mix (g)'))).toBeCloseTo(plan.finishing!.coats[i].mixG, 3);
      expect(at(row, 'starts')).toBe(plan.finishing!.coats[i].starts);
      expect(at(row, 'depth (mm)')).toBe('2');
    });
    const halted = rowsOf(poursCsv(read(asked), { ...plan, finishing: { ...plan.finishing!, coatHalt: 'DO NOT POUR. Why.' } })).slice(-1)[0];
    expect([at(halted, 'do not pour'), at(halted, 'mix (g)'), at(halted, 'scale after part A, each cup (g)')]).toEqual(['DO NOT POUR. Why.', '', '']);
  });
});
