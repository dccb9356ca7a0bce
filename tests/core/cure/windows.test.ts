/** A label's moments, tightened: by hand. */
import { describe, expect, it } from 'vitest';
import type { Windows } from '../../../src/core/cure/verdict-types.ts';
import { LEAST_MOVE_MIN, tightened, type MovableTimes } from '../../../src/core/cure/windows.ts';

const LABEL: MovableTimes = { opens: 600, closes: 1500, scuffable: 1800, paintable: 2160, demold: 2880 };
const NONE: Windows = { closesMin: null, opensMin: null, scuffableMin: null, paintableMin: null, demoldMin: null };

describe('tightening a label’s moments', () => {
  it('leaves them where nothing is simulated', () => {
    expect(tightened(LABEL, NONE)).toEqual(LABEL);
  });

  it('moves the closing sooner and the others later, to whole minutes on the safe side', () => {
    expect(tightened(LABEL, { closesMin: 1399.9, opensMin: 700.1, scuffableMin: 1900.5, paintableMin: 2200, demoldMin: 2999.2 })).toEqual({ closes: 1399, opens: 701, scuffable: 1901, paintable: 2200, demold: 3000 });
  });

  it('never moves anything the other way', () => {
    expect(tightened(LABEL, { closesMin: 2000, opensMin: 100, scuffableMin: 100, paintableMin: 100, demoldMin: 100 })).toEqual(LABEL);
  });

  it(`keeps the label’s under ${LEAST_MOVE_MIN} minutes`, () => {
    expect(tightened(LABEL, { closesMin: 1485.5, opensMin: 614.5, scuffableMin: 1814, paintableMin: 2174, demoldMin: 2894 })).toEqual(LABEL);
    expect(tightened(LABEL, { ...NONE, closesMin: 1485, opensMin: 615 })).toEqual({ ...LABEL, closes: 1485, opens: 615 });
  });
});
