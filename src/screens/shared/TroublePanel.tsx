/** What could not be done and what to do about it; what is in the way of planning; what was refused. What was shown stays. */
import { problemLine } from '../../core/scene/read.ts';
import { usePiece } from './piece.ts';
import { plainProblem } from './plain-problem.ts';
import { useWords } from './words.ts';

/** `planning`: whether to say what is in the way of planning; Compose says it nearer to the hand. */
export function TroublePanel({ planning }: { readonly planning: boolean }) {
  const trouble = usePiece((state) => state.trouble);
  const unplanned = usePiece((state) => state.unplanned);
  const file = usePiece((state) => state.document);
  const name = file?.name;
  const undo = usePiece((state) => state.undo);
  const undoStep = usePiece((state) => state.undoStep);
  const dismiss = usePiece((state) => state.dismissTrouble);
  const { said } = useWords();
  return (
    <div role="alert" aria-label="What is in the way">
      {trouble && (
        <section className="trouble" aria-label={trouble.title}>
          <h2>{trouble.title}</h2>
          <Problems lines={trouble.problems.map(problemLine)} />
          {trouble.unchanged && name !== undefined && <p>Nothing else changed: you still see <i>{name || 'the piece from before'}</i>.</p>}
          <button type="button" className="button" onClick={dismiss}>Close this</button>
        </section>
      )}
      {planning && unplanned.length > 0 && (
        <section className="trouble" aria-label="The piece can’t be planned as it is">
          <h2>The piece can’t be planned as it is</h2>
          <Problems lines={unplanned.map((problem) => (file ? plainProblem(problem, file) : problem.message))} />
          <p>The pours you see are those from before.</p>
          {undoStep && <button type="button" className="button" onClick={undo}>Undo: {said(undoStep.label)}</button>}
        </section>
      )}
    </div>
  );
}

function Problems({ lines }: { readonly lines: readonly string[] }) {
  const { said } = useWords();
  return (
    <ul>
      {lines.map((line) => <li key={line}>{said(line)}</li>)}
    </ul>
  );
}
