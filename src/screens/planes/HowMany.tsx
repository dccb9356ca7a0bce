/** How many planes? What each number shows from the side and what it costs, planned in the background; a press sets them. */
import { useState } from 'react';
import { setPlanes } from '../../core/scene/edit/creature.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { thingsOf } from '../../core/scene/edit/things.ts';
import { fewestHidden } from '../../core/sight/plane-counts.ts';
import { counted, plain } from '../../core/units/format.ts';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { usePlaneRows, type PlaneRow } from './plane-rows.ts';
import type { Stance } from './slicing.ts';

export interface HowManyProps {
  readonly file: SceneFile;
  readonly creatureId: string;
  readonly stance: Stance;
}

export function HowMany(props: HowManyProps) {
  const [open, setOpen] = useState(false);
  return (
    <details className="how-many" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>How many planes?</summary>
      {open && <Rows {...props} />}
    </details>
  );
}

function Rows({ file, creatureId, stance }: HowManyProps) {
  const edit = usePiece((state) => state.edit);
  const { lengthNumber } = useWords();
  const unit = usePiece((state) => state.units.length);
  const known = usePlaneRows(file, creatureId, stance);
  const now = heightsOf(file, creatureId);
  const rows = known?.rows ?? [];
  const fewest = known?.done ? fewestHidden(rows) : null;
  const choose = ({ choice }: PlaneRow): boolean => edit((before) => setPlanes(before, creatureId, heightsOf(choice.file, creatureId)));
  const isNow = ({ choice }: PlaneRow): boolean => heightsOf(choice.file, creatureId).join() === now.join();
  return (
    <>
      {rows.length > 0 && (
        <table>
          <thead>
            <tr><th scope="col">planes</th><th scope="col">apart<br /><span className="soft">{unit}</span></th><th scope="col">step at 45°<br /><span className="soft">{unit}</span></th><th scope="col">pours</th><th scope="col">days<br />more</th><th scope="col">paint<br /><span className="soft">h</span></th></tr>
          </thead>
          <tbody>
            {rows.map((row) => (
              <tr key={row.planes} className={isNow(row) ? 'chosen' : undefined}>
                <th scope="row"><button type="button" className="link" aria-pressed={isNow(row)} aria-label={`Use ${counted(row.planes, 'plane')}`} onClick={() => choose(row)}>{row.planes}</button></th>
                <td>{row.gapMm === null ? 'flat' : lengthNumber(row.gapMm)}</td>
                <td>{row.stepAt45Mm === null ? '' : <>{lengthNumber(row.stepAt45Mm)} <span className="soft">{row.hidden ? 'hidden' : 'shows'}{row.viewDeg === 45 ? '' : ` at ${plain(row.viewDeg, 0)}°`}</span></>}</td>
                {row.halts.length > 0 ? <td colSpan={3} className="halt-text"><b>do not pour</b></td> : <><td>{row.pours}</td><td>{plain(row.daysAdded)}</td><td>{plain(row.paintH)}</td></>}
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <p className="soft" role="status">
        {!known?.done ? 'Each number of planes is being planned …' : rows.length === 0 ? 'No number of planes can be planned here.' : fewest ? `${fewest.planes} are the fewest whose steps the feather hides.` : 'With none of these does the feather hide the step.'}
      </p>
    </>
  );
}

function heightsOf(file: SceneFile, creatureId: string): readonly number[] {
  return thingsOf(file).flatMap((each) => (each.kind === 'plane' && each.slices?.includes(creatureId) ? [each.atMm] : [])).sort((a, b) => a - b);
}
