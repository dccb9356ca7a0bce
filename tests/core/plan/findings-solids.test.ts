/** What is said of figures: a remedy speaks only of pours there are, a material nobody knows is named. */
import { describe, expect, it } from 'vitest';
import { planOf, scene } from '../../plan/planning.ts';

const figure = (more: object) => scene({ placements: [{ id: 'f', kind: 'figure', name: 'Fish', shape: { type: 'box', lengthMm: 30, widthMm: 30, heightMm: 15 }, baseMm: 20, ...more }] });
const found = (more: object, code: string) => planOf(figure(more)).findings.filter((finding) => finding.code === code);

describe('a floater', () => {
  it('is told of its locking pour where one holds it', () => {
    // 30 × 30 × 15 mm, 12 g in 1.09 g/mL: rises at 12/(1.09 × 9) = 12.2 mm, safe to 9.8 (by hand).
    const [floats] = found({ massG: 12 }, 'floats');
    expect(floats.message).toMatch(/Pour \d locks it\. Over 9\.7\u00a0mm deep it could float\./);
    expect(floats.remedy).toMatch(/^Let that pour turn tacky before the next\. Or add /);
  });

  it('is not told to let a pour turn tacky where none can hold it', () => {
    // 2 g: rises at 2.04 mm, safe to 1.6, under the least depth of 5.
    expect(found({ massG: 2 }, 'cannot-lock')).toHaveLength(1);
    const [floats] = found({ massG: 2 }, 'floats');
    expect(floats.message).not.toMatch(/locks/);
    expect(floats.remedy).toMatch(/^Add .* of steel, or fasten it\.$/);
  });
});

describe('a material that is not on the list', () => {
  it.each(['rests', 'fixed'])('is named, with the list, for what %s', (hold) => {
    const [told] = found({ material: 'cheese', hold }, 'material-unknown');
    expect(told).toMatchObject({ severity: 'note', subject: 'f' });
    expect(told.message).toContain('“cheese”');
    expect(told.remedy).toMatch(/pla, petg, .*plant\.$/);
  });

  it('is not asked about where weight or density are given, nor one that is on it', () => {
    for (const more of [{ material: 'cheese', massG: 9 }, { material: 'cheese', densityGPerMl: 1.1 }, { material: 'stone' }, {}]) expect(found(more, 'material-unknown')).toEqual([]);
  });
});
