/** 1:1 templates of the painted planes, to save one by one or all at once, and what the printer's check bars measured. */
import { useEffect, useRef, useState } from 'react';
import { setPrintBars } from '../../core/scene/edit/bench.ts';
import { STENCILS_STEM, planesUpward, templateStems } from '../../core/sheet/template-planes.ts';
import type { Gives } from '../../work/protocol.ts';
import { QuantityField } from '../card/QuantityField.tsx';
import { download, fileNameOf } from '../files/download.ts';
import { useDerived, usePiece } from '../shared/piece.ts';
import { askedTemplate } from '../shared/route.ts';
import { useWords } from '../shared/words.ts';
import './templates.css';

/** mm. What the bars are when the printer is true. */
const TRUE_MM = 100;
const TYPES: Readonly<Record<string, string>> = { pdf: 'application/pdf', svg: 'image/svg+xml' };

type Files = Gives['templates'];

export function Templates() {
  const derived = useDerived();
  const paper = usePiece((state) => state.paper);
  const units = usePiece((state) => state.units);
  const deriving = usePiece((state) => state.deriving);
  const makeTemplates = usePiece((state) => state.makeTemplates);
  const edit = usePiece((state) => state.edit);
  const { length } = useWords();
  const made = useRef<{ readonly of: readonly unknown[]; readonly files: Files } | null>(null);
  const [making, setMaking] = useState(false);
  const { scene } = derived;
  const planes = planesUpward(scene);
  const list = useRef<HTMLUListElement>(null);
  const asked = useRef(askedTemplate());
  useEffect(() => {
    goTo(list.current, planes.findIndex(({ id }) => id === asked.current));
    asked.current = null;
  }, [planes]);
  if (planes.length === 0) return <section className="templates" aria-label="Templates"><h3>Templates</h3><p className="soft">There is no painted plane to make a template of.</p></section>;

  const waiting = making || deriving || derived.checkingHeat;
  const filesNow = async (): Promise<Files | null> => {
    const of = [derived, paper, units];
    if (made.current?.of.every((one, i) => one === of[i])) return made.current.files;
    setMaking(true);
    const files = await makeTemplates();
    setMaking(false);
    if (files) made.current = { of, files };
    return files;
  };
  const save = async (stem: string, ending: string): Promise<void> => {
    if (waiting) return;
    const files = (await filesNow()) ?? [];
    // Stencils may take several drawings, one file each.
    const wanted = files.filter(({ name }) => name.endsWith(`.${ending}`) && (name === `${stem}.${ending}` || (stem === STENCILS_STEM && name.startsWith(stem))));
    for (const { name, bytes } of wanted) download(name, new Blob([bytes as Uint8Array<ArrayBuffer>], { type: TYPES[ending] }));
  };
  const saveAll = async (): Promise<void> => {
    if (waiting) return;
    const [files, { writeZip }] = await Promise.all([filesNow(), import('../../files/zip-write.ts')]);
    if (files) download(fileNameOf(scene.name, ' templates.zip'), new Blob([writeZip(files) as Uint8Array<ArrayBuffer>], { type: 'application/zip' }));
  };

  const bars = scene.bench.printBars ?? { xMm: TRUE_MM, yMm: TRUE_MM };
  const measured = (change: Partial<typeof bars>): boolean => {
    const now = { ...bars, ...change };
    return edit((file) => setPrintBars(file, now.xMm === TRUE_MM && now.yMm === TRUE_MM ? null : now));
  };
  const stems = [...templateStems(planes), STENCILS_STEM];
  const titles = [...planes.map(({ name, atMm }) => ({ name, words: `${name}, ${length(atMm)} up` })), { name: 'Stencils', words: 'All of them to cut out, as stencils' }];
  return (
    <section className="templates" aria-label="Templates">
      <h3>Templates</h3>
      <p className="soft">Each painted plane true to size, to trace or to cut{scene.cast === 'face-down' ? '; mirrored, as it is cast face-down' : ''}. Print at 100&nbsp;%, then measure the two bars on the page.</p>
      <p className="sentence">
        The bars measure <QuantityField inSentence label="Bar across, mm" kind="number" value={bars.xMm} onCommit={(xMm) => measured({ xMm })} /> mm across and{' '}
        <QuantityField inSentence label="Bar up, mm" kind="number" value={bars.yMm} onCommit={(yMm) => measured({ yMm })} /> mm up.
      </p>
      <ul ref={list}>
        {titles.map(({ name, words }, i) => (
          <li key={stems[i]}>
            <span>{words}</span>
            {Object.keys(TYPES).map((ending) => (
              <button key={ending} type="button" className="button" aria-disabled={waiting} aria-label={`${name} as ${ending.toUpperCase()}`} onClick={() => void save(stems[i], ending)}>{ending.toUpperCase()}</button>
            ))}
          </li>
        ))}
      </ul>
      <button type="button" className="button" aria-disabled={waiting} onClick={() => void saveAll()}>Save all in one zip</button>
      <p className="soft" role="status">{making ? 'Drawing the templates …' : ''}</p>
    </section>
  );
}

/** To the template that another screen's link asked for. */
function goTo(list: HTMLUListElement | null, at: number): void {
  const row = at < 0 ? undefined : list?.children[at];
  row?.scrollIntoView({ block: 'center' });
  row?.querySelector('button')?.focus();
}
