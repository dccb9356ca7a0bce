/** The first day and hour at the bench, to be set where they are asked for. */
import { setStart } from '../../core/scene/edit/bench.ts';
import { usePiece } from '../shared/piece.ts';
import { TextField } from './fields.tsx';

export function FirstDay() {
  const start = usePiece((state) => state.document?.bench?.start);
  const edit = usePiece((state) => state.edit);
  return <TextField labelSeen type="datetime-local" label="First day and hour" value={start?.slice(0, 16) ?? ''} onCommit={(to) => edit((before) => setStart(before, to === '' ? null : to))} />;
}
