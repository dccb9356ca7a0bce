/** Numbers that only make sense together: nothing is set until the last of them is typed. */
import { useState } from 'react';
import { usePiece } from '../shared/piece.ts';
import { QuantityField } from './QuantityField.tsx';
import type { QuantityKind } from './typed-quantity.ts';

export interface TypedTogetherProps<K extends string> {
  /** What they are of, for a screen reader. */
  readonly name: string;
  readonly fields: readonly { readonly key: K; readonly label: string; readonly kind: QuantityKind; readonly placeholder: string }[];
  /** Makes the edit; false: refused, and the store says why. */
  readonly onTyped: (values: Readonly<Record<K, number>>) => boolean;
}

export function TypedTogether<K extends string>({ name, fields, onTyped }: TypedTogetherProps<K>) {
  const readOnly = usePiece((state) => state.readOnly !== null);
  const [values, setValues] = useState<Partial<Record<K, number>>>({});
  if (readOnly) return null;
  const commit = (key: K, value: number): boolean => {
    const next = { ...values, [key]: value };
    if (!fields.every((field) => next[field.key] !== undefined)) {
      setValues(next);
      return true;
    }
    if (!onTyped(next as Record<K, number>)) return false;
    setValues({});
    return true;
  };
  return (
    <div role="group" aria-label={name}>
      {fields.map(({ key, label, kind, placeholder }) => <QuantityField key={key} label={label} kind={kind} placeholder={placeholder} value={values[key] ?? null} onCommit={(value) => commit(key, value)} />)}
    </div>
  );
}
