/** Days with a span of hours, to be typed: when the bench is open, when someone sleeps. */
import type { HoursFile } from '../../core/scene/edit/file.ts';
import { TextField } from './fields.tsx';

export interface HoursRowProps {
  /** What the row is of, for a screen reader. */
  readonly name: string;
  readonly daysLabel: string;
  readonly hours: HoursFile;
  /** Whether it could be set. */
  readonly onChange: (part: Partial<HoursFile>) => boolean;
  /** Null: it can't be taken out. */
  readonly takeOut: { readonly name?: string; readonly press: () => void } | null;
}

export function HoursRow({ name, daysLabel, hours: { days, from, to }, onChange, takeOut }: HoursRowProps) {
  return (
    <div className="hours" role="group" aria-label={name}>
      <TextField labelSeen label={daysLabel} value={days} onCommit={(text) => onChange({ days: text })} />
      <TextField labelSeen type="time" label="from" value={from} onCommit={(text) => onChange({ from: text })} />
      <TextField labelSeen type="time" label="to" value={to} onCommit={(text) => onChange({ to: text })} />
      {takeOut && <button type="button" className="link" aria-label={takeOut.name} onClick={takeOut.press}>Take out</button>}
    </div>
  );
}
