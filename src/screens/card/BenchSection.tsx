/** The bench: first day and hours, scale, what stays in the cup, allowance, how long things take. Defaults are shown as such until touched. */
import { BENCH_FIELDS, benchHours, benchValue, setBench, setHours } from '../../core/scene/edit/bench.ts';
import { isDefault } from '../../core/scene/edit/default.ts';
import type { HoursFile, SceneFile } from '../../core/scene/edit/file.ts';
import { usePiece } from '../shared/piece.ts';
import { CardSection } from './fields.tsx';
import { DaysSection } from './DaysSection.tsx';
import { FirstDay } from './FirstDay.tsx';
import { HoursRow } from './HoursRow.tsx';
import { PLACES } from './PieceParts.tsx';
import { QuantityField } from './QuantityField.tsx';
import type { QuantityKind } from './typed-quantity.ts';
import { capital } from '../../core/units/format.ts';

const KINDS: Readonly<Record<'g' | 'mL' | 'h' | 'fraction', QuantityKind>> = { g: 'mass', mL: 'volume', h: 'hours', fraction: 'percent' };
const PER_SHOWN = { g: 1, mL: 1, h: 1, fraction: 100 } as const;

export function BenchSection({ file }: { readonly file: SceneFile }) {
  const edit = usePiece((state) => state.edit);
  const hours = benchHours(file);
  const change = (at: number, part: Partial<HoursFile>): boolean => edit((before) => setHours(before, benchHours(before).map((row, i) => (i === at ? { ...row, ...part } : row))));
  return (
    <CardSection title="Bench" place={PLACES.bench}>
      <FirstDay />
      {isDefault(file, 'bench.start') && <p className="soft">Not set: the calendar counts from a day of its own.</p>}
      {hours.map((row, at) => (
        <HoursRow
          key={at}
          name={hours.length === 1 ? 'Bench hours' : `Bench hours, line ${at + 1}`}
          daysLabel="Days"
          hours={row}
          onChange={(part) => change(at, part)}
          takeOut={hours.length > 1 ? { press: () => edit((before) => setHours(before, benchHours(before).filter((_, i) => i !== at))) } : null}
        />
      ))}
      {isDefault(file, 'bench.hours') && <p className="soft">These are the usual hours. Days are written like Mon-Fri or Sat,Sun.</p>}
      <button type="button" className="link" onClick={() => edit((before) => setHours(before, [...benchHours(before), { days: 'Sat,Sun', from: '10:00', to: '18:00' }]))}>Other hours on other days</button>
      <DaysSection file={file} />
      {BENCH_FIELDS.map(({ field, words, unit }) => (
        <QuantityField
          key={field}
          label={capital(words)}
          kind={KINDS[unit]}
          usual={isDefault(file, `bench.${field}`)}
          value={Number((benchValue(file, field) * PER_SHOWN[unit]).toPrecision(12))}
          onCommit={(value) => edit((before) => setBench(before, field, value / PER_SHOWN[unit]))}
        />
      ))}
    </CardSection>
  );
}
