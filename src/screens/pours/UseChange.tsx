/** Takes up a small change that a finding offers: one edit, which can be undone. */
import { refused } from '../../core/scene/edit/file.ts';
import { readTrials } from '../../core/plan/what-if-text.ts';
import { tried } from '../../core/plan/what-if.ts';
import { usePiece } from '../shared/piece.ts';

export function UseChange({ change }: { readonly change: string }) {
  const edit = usePiece((state) => state.edit);
  const readOnly = usePiece((state) => state.readOnly !== null);
  if (readOnly) return null;
  const take = () => edit((before) => {
    const read = readTrials(change, before);
    return read.ok ? tried(before, read.trials) : refused(read.reason);
  });
  return <button type="button" className="link" onClick={take}>Plan with it</button>;
}
