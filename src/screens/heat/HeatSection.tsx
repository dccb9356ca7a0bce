/** On a formula's card: by what pours are judged, and where its label contradicts itself. */
import { Suspense } from 'react';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { heatModelOf, setHeatModel, type HeatModel } from '../../core/scene/edit/heat-model.ts';
import { isDefault } from '../../core/scene/edit/default.ts';
import { CardSection, FewField } from '../card/fields.tsx';
import { fetched } from '../shared/fetched.tsx';
import { Rich } from '../shared/Rich.tsx';
import { usePiece } from '../shared/piece.ts';

const TestCups = fetched(async () => (await import('./TestCups.tsx')).TestCups);
const MODELS: readonly { readonly value: HeatModel; readonly words: string }[] = [
  { value: 'simulated', words: 'label and heat' },
  { value: 'label', words: 'label alone' },
];
const NO_NAMES: readonly string[] = [];

export function HeatSection({ file, id }: { readonly file: SceneFile; readonly id: string }) {
  const edit = usePiece((state) => state.edit);
  const findings = usePiece((state) => state.derived?.plan.findings);
  const model = heatModelOf(file);
  const against = findings?.filter(({ code, subject }) => code === 'label-contradiction' && subject === `formula ${id}`) ?? [];
  return (
    <>
      <CardSection title="Heat" note="for all formulas of the piece">
        <FewField<HeatModel> label="Judge pours by" value={model} usual={isDefault(file, 'heat.model')} choices={MODELS} onChoose={(to) => edit((before) => setHeatModel(before, to))} />
        <p className="soft">
          {model === 'label'
            ? 'Only the label’s depth and times count, as if every room, mold and pour below were the label’s own.'
            : 'The label’s depth and times are the most that is allowed; a warm room, a narrow mold or a warm pour below makes it less.'}
        </p>
        {against.map(({ message, remedy }) => (
          <div key={message}>
            <p><span className="mark mark-note">note</span></p>
            <p><Rich text={message.slice(message.indexOf(': ') + 2)} names={NO_NAMES} /></p>
            <p className="soft">{remedy}</p>
          </div>
        ))}
      </CardSection>
      {model === 'simulated' && <Suspense fallback={null}><TestCups key={id} file={file} id={id} /></Suspense>}
    </>
  );
}
