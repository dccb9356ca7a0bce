/** What could not be done and what to do about it. What was shown stays. */
import { problemLine } from '../../core/scene/read.ts';
import { useScene } from './store.ts';

export function TroublePanel() {
  const trouble = useScene((state) => state.trouble);
  const name = useScene((state) => state.shown?.scene.name);
  const dismiss = useScene((state) => state.dismissTrouble);
  return (
    <div role="alert">
      {trouble && (
        <section className="trouble" aria-label={trouble.title}>
          <h2>{trouble.title}</h2>
          <ul>
            {trouble.problems.map((problem) => <li key={`${problem.path} ${problem.message}`}>{problemLine(problem)}</li>)}
          </ul>
          {name !== undefined && <p>Nothing else changed: you still see <i>{name || 'the scene from before'}</i>.</p>}
          <button type="button" className="button" onClick={dismiss}>Close this</button>
        </section>
      )}
    </div>
  );
}
