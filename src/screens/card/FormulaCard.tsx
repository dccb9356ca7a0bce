/** A formula: its class, what its label says first, the rest marked typical with range and source; the person's shelf. */
import { useState } from 'react';
import { CLASS_FIELDS, RESIN_CLASSES } from '../../core/resin/classes.ts';
import { completeFormula, isBuiltIn, type LabelValues } from '../../core/resin/formula.ts';
import type { FormulaFile, SceneFile } from '../../core/scene/edit/file.ts';
import { setFormula } from '../../core/scene/edit/fills.ts';
import { formulaIn, ownFormula, removeFormula, renameFormula, setFamily, setLabelValue, usesOf } from '../../core/scene/edit/formulas.ts';
import { labelFields, moreFields, type LabelFieldInfo } from '../../core/scene/edit/label-fields.ts';
import { addFromShelf, formulaForShelf } from '../../core/scene/edit/shelf.ts';
import type { Family } from '../../core/scene/scene.ts';
import { capital, plain } from '../../core/units/format.ts';
import { HeatSection } from '../heat/HeatSection.tsx';
import { useComposeUi } from '../compose/ui.ts';
import { usePiece } from '../shared/piece.ts';
import { useWords } from '../shared/words.ts';
import { CardHead } from './CardParts.tsx';
import { CardSection, ManyField, TextField } from './fields.tsx';
import { KitsSection } from './KitsSection.tsx';
import { QuantityField } from './QuantityField.tsx';
import { readRatio } from './ratio.ts';
import { useShelf } from './shelf.ts';
import type { QuantityKind } from './typed-quantity.ts';

const FAMILIES: readonly Family[] = ['general', 'low-viscosity', 'coating', 'deep-pour', 'uv'];
const KINDS: Readonly<Record<string, QuantityKind>> = { mm: 'length', g: 'mass', min: 'minutes', h: 'hours', '°C': 'temperature' };

export function FormulaCard({ file, id }: { readonly file: SceneFile; readonly id: string }) {
  const edit = usePiece((state) => state.edit);
  const showFormula = useComposeUi((ui) => ui.showFormula);
  const formula = formulaIn(file, id);
  if (!formula) return null;
  const { name, family } = completeFormula(formula as LabelValues);
  const uses = usesOf(file, id).length;
  return (
    <>
      <CardHead kind="Formula" name={name} words={uses === 0 ? 'poured nowhere yet' : uses === 1 ? 'poured in one fill' : `poured in ${uses} fills`} onName={(to) => edit((before) => renameFormula(before, id, to))} />
      <CardSection title="What its label says" note="type these; they win">
        {!isBuiltIn(id) && <ManyField<Family> label="Class" value={family} choices={FAMILIES.map((value) => ({ value, words: RESIN_CLASSES[value].name.replace(' (typical)', '') }))} onChoose={(to) => edit((before) => setFamily(before, id, to))} />}
        {labelFields(formula).map((info) => <LabelField key={info.field} formula={formula} info={info} />)}
      </CardSection>
      <details className="card-section">
        <summary>The rest, typical of its class</summary>
        {moreFields(formula).map((info) => <LabelField key={info.field} formula={formula} info={info} />)}
      </details>
      <KitsSection file={file} id={id} />
      <HeatSection file={file} id={id} />
      <ShelfSection file={file} id={id} />
      {uses === 0 && !isBuiltIn(id) && <p className="card-actions"><button type="button" className="link" onClick={() => { if (edit((before) => removeFormula(before, id))) showFormula(null); }}>Take it out of the piece</button></p>}
    </>
  );
}

function LabelField({ formula, info }: { readonly formula: FormulaFile; readonly info: LabelFieldInfo }) {
  const edit = usePiece((state) => state.edit);
  const { field, words, unit, value, typical, range, provenance } = info;
  const label = capital(words);
  const clear = formula[field] !== undefined && <button type="button" className="link" onClick={() => edit((before) => setLabelValue(before, formula.id, field, null))}>Typical again<span className="hidden">: {words}</span></button>;
  if (field === 'ratioByVolume' || field === 'ratioByMass') {
    const ratio = Array.isArray(value) ? `${plain(value[0], 2)} : ${plain(value[1], 2)}` : '';
    return (
      <div className="label-value">
        <TextField labelSeen label={label} value={ratio} placeholder={field === 'ratioByMass' ? 'like 100 : 42' : 'like 2 : 1'} onCommit={(text) => {
          const read = readRatio(text);
          return read !== null && edit((before) => setLabelValue(before, formula.id, field, read));
        }} />
        {typical && <TypicalNote range={null} unit="" provenance={provenance} />}
        {clear}
      </div>
    );
  }
  const fraction = field === 'shrinkageFraction';
  const shown = typeof value === 'number' ? (fraction ? Number((value * 100).toPrecision(12)) : value) : null;
  return (
    <div className="label-value">
      <QuantityField label={label} kind={fraction ? 'percent' : (KINDS[unit] ?? 'number')} unit={unit in KINDS || fraction || unit === '' ? undefined : CLASS_FIELDS[field].unit} usual={typical} value={shown} onCommit={(to) => edit((before) => setLabelValue(before, formula.id, field, fraction ? to / 100 : to))} />
      {typical && <TypicalNote range={range && fraction ? [range[0] * 100, range[1] * 100] : range} unit={fraction ? '%' : unit} provenance={provenance} />}
      {clear}
    </div>
  );
}

function TypicalNote({ range, unit, provenance }: { readonly range: readonly [number, number] | null; readonly unit: string; readonly provenance: string | null }) {
  const { length, lengthNumber } = useWords();
  const ends = range && (unit === 'mm' ? [lengthNumber(range[0]), length(range[1])] : [plain(range[0], 3), `${plain(range[1], 3)}${unit && `\u00a0${unit}`}`]);
  const seen = ends && range[0] !== range[1] ? `, ${ends.join(' to ')}` : '';
  return <p className="soft provenance">typical{seen}{provenance && ` (${provenance})`}</p>;
}

function ShelfSection({ file, id }: { readonly file: SceneFile; readonly id: string }) {
  const edit = usePiece((state) => state.edit);
  const showFormula = useComposeUi((ui) => ui.showFormula);
  const { formulas: shelf, trouble: notKept, keep: keepOn, takeOff } = useShelf();
  const [trouble, setTrouble] = useState<string | null>(null);
  const uses = usesOf(file, id);
  const keep = (): void => {
    const ready = formulaForShelf(file, id);
    setTrouble(ready.ok ? null : ready.reason);
    if (ready.ok) keepOn(ready.formula);
  };
  /** From the shelf it goes to where the formula on this card is poured. */
  const take = (formula: FormulaFile): void => {
    let taken: string | undefined;
    const made = edit((before) => {
      const result = addFromShelf(before, formula);
      if (!result.ok) return result;
      taken = result.ids[0];
      return uses.reduce<ReturnType<typeof setFormula>>((step, at) => (step.ok ? setFormula(step.file, at, result.ids[0]) : step), result);
    });
    if (made && taken !== undefined) showFormula(taken);
  };
  const own = (): void => {
    let made: string | undefined;
    const { ratioByVolume, ratioByMass, maxDepthMm, family, name } = completeFormula((formulaIn(file, id) ?? { id }) as LabelValues);
    const ok = edit((before) => {
      const result = ownFormula(before, family, { name: `My ${name.replace(' (typical)', '').toLowerCase()}`, ...(ratioByMass ? { ratioByMass } : { ratioByVolume }), maxDepthMm });
      if (!result.ok) return result;
      made = result.ids[0];
      return uses.reduce<ReturnType<typeof setFormula>>((step, at) => (step.ok ? setFormula(step.file, at, result.ids[0]) : step), result);
    });
    if (ok && made !== undefined) showFormula(made);
  };
  return (
    <CardSection title="Your shelf" note="kept between pieces">
      <p className="card-actions">
        <button type="button" className="link" onClick={own}>Start one of my own from this</button>
        <button type="button" className="link" onClick={keep}>Keep this on my shelf</button>
      </p>
      {(trouble ?? notKept) && <p role="alert" className="problem">{trouble ?? notKept}</p>}
      {shelf.length === 0 ? <p className="soft">Nothing on it yet.</p> : (
        <ul className="shelf">
          {shelf.map((formula) => (
            <li key={formula.id}>
              <button type="button" className="link" onClick={() => take(formula)}>Pour {formula.name ?? formula.id}</button>{' '}
              <button type="button" className="link quiet" onClick={() => takeOff(formula.id)}>Take off<span className="hidden"> the shelf: {formula.name ?? formula.id}</span></button>
            </li>
          ))}
        </ul>
      )}
    </CardSection>
  );
}
