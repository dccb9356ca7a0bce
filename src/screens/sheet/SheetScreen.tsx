/** The build sheet as it will be printed, the choice of paper, and the way to its PDF, to a calendar and to a table of pours. */
import { useEffect, useId } from 'react';
import { isUndated } from '../../core/plan/undated.ts';
import type { Paper } from '../../core/sheet/document.ts';
import { counted } from '../../core/units/format.ts';
import { FirstDay } from '../card/FirstDay.tsx';
import { download, fileNameOf } from '../files/download.ts';
import { useDerived, usePiece } from '../shared/piece.ts';
import { SheetPages } from './SheetPages.tsx';
import { Templates } from './Templates.tsx';
import './sheet.css';

const PAPERS: readonly { readonly paper: Paper; readonly title: string }[] = [
  { paper: 'a4', title: 'A4' },
  { paper: 'letter', title: 'Letter' },
];

export function SheetScreen() {
  const derived = useDerived();
  const paper = usePiece((state) => state.paper);
  const units = usePiece((state) => state.units);
  const sheet = usePiece((state) => state.sheet);
  const setPaper = usePiece((state) => state.setPaper);
  const makeSheet = usePiece((state) => state.makeSheet);
  const makePdf = usePiece((state) => state.makePdf);
  const saving = usePiece((state) => state.savingPdf);
  const unplanned = usePiece((state) => state.unplanned.length > 0);
  const whyNoCalendar = useId();
  useEffect(() => {
    void makeSheet();
  }, [makeSheet, derived, paper, units]);
  if (unplanned) return <p>There is no sheet of a piece that can’t be planned. Mend what is in the way first.</p>;
  const save = async () => {
    const bytes = await makePdf();
    if (bytes) download(fileNameOf(derived.scene.name, '.pdf'), new Blob([bytes as Uint8Array<ArrayBuffer>], { type: 'application/pdf' }));
  };
  const { scene, plan } = derived;
  const saveCalendar = async () => {
    const { calendarFile } = await import('../../files/calendar.ts');
    download(fileNameOf(scene.name, '.ics'), new Blob([calendarFile(plan, { piece: scene.id ?? scene.name, madeMs: Date.now() })], { type: 'text/calendar' }));
  };
  const saveTable = async () => {
    const { poursCsv } = await import('../../files/csv.ts');
    download(fileNameOf(scene.name, '.csv'), new Blob([poursCsv(scene, plan)], { type: 'text/csv' }));
  };
  const waiting = saving || derived.checkingHeat;
  const undated = isUndated(plan);
  return (
    <div className="sheet-screen">
      <div className="sheet-bar">
        <h2>Build sheet</h2>
        <fieldset className="papers">
          <legend>Paper</legend>
          {PAPERS.map((one) => (
            <label key={one.paper}>
              <input type="radio" name="paper" value={one.paper} checked={paper === one.paper} onChange={() => setPaper(one.paper)} />
              {one.title}
            </label>
          ))}
        </fieldset>
        <button type="button" className="button main" aria-disabled={waiting} onClick={() => void save()}>Save the PDF</button>
        <button type="button" className="button" aria-disabled={waiting || undated} aria-describedby={undated ? whyNoCalendar : undefined} onClick={() => !waiting && !undated && void saveCalendar()}>Save a calendar</button>
        <button type="button" className="button" aria-disabled={waiting} onClick={() => !waiting && void saveTable()}>Save a table</button>
        <p className="soft sheet-count" role="status">
          {derived.checkingHeat ? 'Checking the heat …' : saving ? 'Writing the PDF …' : sheet.kind === 'ready' ? `${counted(sheet.document.pages.length, 'page')}. Print at 100 %: the fill marks are true to the millimeter.` : sheet.kind === 'failed' ? 'The sheet could not be laid out.' : 'Laying out the sheet …'}
        </p>
      </div>
      {undated && <div className="undated"><p id={whyNoCalendar}>No first day is set: the sheet counts days, and a calendar needs dates. Set the day and hour you begin.</p><FirstDay /></div>}
      <Templates />
      {sheet.kind === 'ready' && <SheetPages document={sheet.document} />}
    </div>
  );
}
