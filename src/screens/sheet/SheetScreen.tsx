/** The build sheet as it will be printed, the choice of paper, and the way to its PDF. */
import { useEffect } from 'react';
import type { Paper } from '../../core/sheet/document.ts';
import { counted } from '../../core/units/format.ts';
import { useScene, useShown } from '../shared/store.ts';
import { saveFile, sheetFileName } from './save-file.ts';
import { SheetPages } from './SheetPages.tsx';
import './sheet.css';

const PAPERS: readonly { readonly paper: Paper; readonly title: string }[] = [
  { paper: 'a4', title: 'A4' },
  { paper: 'letter', title: 'Letter' },
];

export function SheetScreen() {
  const shown = useShown();
  const paper = useScene((state) => state.paper);
  const sheet = useScene((state) => state.sheet);
  const setPaper = useScene((state) => state.setPaper);
  const makeSheet = useScene((state) => state.makeSheet);
  const makePdf = useScene((state) => state.makePdf);
  const saving = useScene((state) => state.savingPdf);
  useEffect(() => {
    void makeSheet();
  }, [makeSheet, shown, paper]);
  const save = async () => {
    const bytes = await makePdf();
    if (bytes) saveFile(sheetFileName(shown.scene.name), bytes, 'application/pdf');
  };
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
        <button type="button" className="button main" aria-disabled={saving} onClick={() => void save()}>Save the PDF</button>
        <p className="soft sheet-count" role="status">
          {saving ? 'Writing the PDF …' : sheet.kind === 'ready' ? `${counted(sheet.document.pages.length, 'page')}. Print at 100 %: the fill marks are true to the millimeter.` : sheet.kind === 'failed' ? 'The sheet could not be laid out.' : 'Laying out the sheet …'}
        </p>
      </div>
      {sheet.kind === 'ready' && <SheetPages document={sheet.document} />}
    </div>
  );
}
