/** The choosers behind `a figure` and `a bed`: our own figures, simple shapes, a file, something real. The least asking. */
import { useRef, useState } from 'react';
import figures from '../../../assets/figures/figures.json';
import { addBed, addFigure } from '../../core/scene/edit/place.ts';
import type { AddResult, SceneFile } from '../../core/scene/edit/file.ts';
import type { Shape } from '../../core/scene/scene.ts';
import { goToUnread, QuantityField } from '../card/QuantityField.tsx';
import { useTrouble } from '../card/trouble.ts';
import { ReadingLine } from '../files/ReadingPanel.tsx';
import { usePiece, usePieceStore } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { Dialog } from './Dialog.tsx';
import { landingOf, sizeOfShape } from './landing.ts';
import { LIBRARY_OUTLINES } from './library-outlines.ts';
import { bedOffers, levelBed, shapeOffers, type Offer } from './offers.ts';
import { useComposeUi } from './ui.ts';

const MESHES_ACCEPTED = '.stl,.obj,.ply,.glb,.gltf,.3mf';
const LIBRARY = Object.entries(figures).map(([name, { title, lengthMm, widthMm, heightMm }]) => ({ name, title, lengthMm, widthMm, heightMm }));

interface SetOptions {
  readonly name?: string;
  readonly voidFraction?: number;
  /** Its size where the shape does not say it, mm. */
  readonly sizeMm?: readonly [number, number, number] | null;
}

export function SetSomething({ file, kind }: { readonly file: SceneFile; readonly kind: 'figure' | 'bed' }) {
  const store = usePieceStore();
  const words = useWords();
  const refusal = usePiece((state) => state.refusal);
  const reading = usePiece((state) => state.reading);
  const ask = useComposeUi((ui) => ui.ask);
  const [trouble, guard] = useTrouble();
  const picker = useRef<HTMLInputElement>(null);

  /** A figure on the ground beside what is there; a bed on the floor. */
  const set = (shape: Shape, { name, voidFraction, sizeMm = sizeOfShape(shape) }: SetOptions = {}): void => {
    const { derived, edit, select } = store.getState();
    let ids: readonly string[] = [];
    const made = edit((before) => {
      const result: AddResult = kind === 'bed' ? addBed(before, { shape, name, voidFraction }) : addFigure(before, { shape, name, ...(derived && landingOf(before, derived, sizeMm)) });
      if (result.ok) ids = result.ids;
      return result;
    });
    if (!made) return;
    select(ids);
    ask(null);
  };
  const addMesh = (mesh: File): void => guard(async () => {
    const path = await store.getState().addFile(mesh.name, mesh);
    set({ type: 'mesh', file: path }, { sizeMm: await store.getState().sizeOfMesh(path) });
  });
  return (
    <Dialog title={kind === 'bed' ? 'A bed' : 'A figure'} onClose={() => ask(null)}>
      {kind === 'bed' && <Offers title="Usual beds" offers={bedOffers(file)} onPick={({ shape, name }) => set(shape, { name })} />}
      {kind === 'bed' && <GravelPart onMade={(voidFraction) => set(levelBed(file), { name: 'Gravel', voidFraction })} />}
      {kind === 'figure' && (
        <section aria-label="Our own">
          <h3>Our own</h3>
          <ul className="library">
            {LIBRARY.map(({ name, title, lengthMm, widthMm, heightMm }) => (
              <li key={name}>
                <button type="button" className="offer" onClick={() => set({ type: 'library', name }, { sizeMm: [lengthMm, widthMm, heightMm] })}>
                  <Outline name={name} />
                  <i>{title}</i>
                  <span className="soft">{words.sizes([lengthMm, widthMm, heightMm], 0)}</span>
                </button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {kind === 'figure' && <Offers title="Simple shapes" offers={shapeOffers(file)} onPick={({ shape }) => set(shape)} />}
      <section aria-label="From a file">
        <h3>From a file</h3>
        <button type="button" className="button" onClick={() => picker.current?.click()}>Choose a file: STL, OBJ, PLY, GLB or 3MF</button>
        <input ref={picker} type="file" hidden accept={MESHES_ACCEPTED} aria-label="File of a sculpted or printed thing" onChange={({ target }) => {
          const mesh = target.files?.[0];
          if (mesh) addMesh(mesh);
          target.value = '';
        }} />
        <div role="status">{reading && <ReadingLine reading={reading} />}</div>
      </section>
      {kind === 'figure' && <MeasuredPart onMade={(shape) => set(shape)} />}
      {(trouble ?? refusal) && <p role="alert" className="problem">{trouble ?? words.said(refusal ?? '')}</p>}
    </Dialog>
  );
}

function Offers({ title, offers, onPick }: { readonly title: string; readonly offers: readonly Offer[]; readonly onPick: (offer: Offer) => void }) {
  return (
    <section aria-label={title}>
      <h3>{title}</h3>
      <div className="button-rows">{offers.map((offer) => <button key={offer.words} type="button" className="button" onClick={() => onPick(offer)}>{offer.words}</button>)}</div>
    </section>
  );
}

/** Of loosely poured gravel, the share that is air (common practice, no source). */
const USUAL_GAPS_PERCENT = 40;

/** Loose grains drink resin: how much is asked, for it is part of every amount. */
function GravelPart({ onMade }: { readonly onMade: (voidFraction: number) => void }) {
  const [percent, setPercent] = useState(USUAL_GAPS_PERCENT);
  const keep = (to: number): boolean | string => {
    if (!(to >= 0 && to < 100)) return 'Gaps are a share of the whole: type 0 % to under 100 %.';
    setPercent(to);
    return true;
  };
  return (
    <section aria-label="Loose gravel or pebbles">
      <h3>Loose gravel or pebbles</h3>
      <div className="measured">
        <QuantityField alone label="Gaps between the grains" kind="percent" usual={percent === USUAL_GAPS_PERCENT} value={percent} onCommit={keep} />
        <button type="button" className="button" onClick={({ currentTarget }) => { if (!goToUnread(currentTarget.parentElement)) onMade(percent / 100); }}>gravel or pebbles</button>
      </div>
      <p className="soft">Resin fills the gaps. To measure them: fill a cup with grains, then with water to the same line. The water’s share of the cup is the gaps’.</p>
    </section>
  );
}

/** What stands in the empty fields: a thumb-sized stone. */
const EXAMPLE = { volumeMl: 8, lengthMm: 40, widthMm: 20, heightMm: 15 };

/** Something real, whose volume was measured in water: it needs no drawing. */
function MeasuredPart({ onMade }: { readonly onMade: (shape: Shape) => void }) {
  const words = useWords();
  const [given, setGiven] = useState<Partial<Record<'volumeMl' | 'lengthMm' | 'widthMm' | 'heightMm', number>>>({});
  const keep = (field: keyof typeof given) => (value: number): boolean | string => {
    if (!(value > 0)) return 'A real thing is larger than nothing: type more than 0.';
    setGiven((before) => ({ ...before, [field]: value }));
    return true;
  };
  const { volumeMl, lengthMm, widthMm, heightMm } = given;
  const ready = volumeMl !== undefined && lengthMm !== undefined && widthMm !== undefined && heightMm !== undefined;
  return (
    <details>
      <summary>Something real, measured in water</summary>
      <div className="measured">
        <QuantityField label="The water rose by" kind="volume" value={volumeMl ?? null} placeholder={`like ${words.volume(EXAMPLE.volumeMl)}`} onCommit={keep('volumeMl')} />
        <QuantityField label="Long" kind="length" value={lengthMm ?? null} placeholder={`like ${words.length(EXAMPLE.lengthMm)}`} onCommit={keep('lengthMm')} />
        <QuantityField label="Wide" kind="length" value={widthMm ?? null} placeholder={`like ${words.length(EXAMPLE.widthMm)}`} onCommit={keep('widthMm')} />
        <QuantityField label="High" kind="length" value={heightMm ?? null} placeholder={`like ${words.length(EXAMPLE.heightMm)}`} onCommit={keep('heightMm')} />
        <button type="button" className="button" aria-disabled={!ready} onClick={({ currentTarget }) => { if (ready && !goToUnread(currentTarget.parentElement)) onMade({ type: 'measured', volumeMl, lengthMm, widthMm, heightMm }); }}>Set it in the mold</button>
      </div>
    </details>
  );
}

function Outline({ name }: { readonly name: string }) {
  const outline = LIBRARY_OUTLINES[name];
  if (!outline) return null;
  return <svg className="library-outline" viewBox={outline.box} aria-hidden="true"><path d={outline.path} fillRule="evenodd" /></svg>;
}
