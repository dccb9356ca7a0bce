/** The class on Pours: when, what each student does, what is poured before and after, and why the rest is not theirs. */
import { useId } from 'react';
import { classLines } from '../../core/plan/runs/class-words.ts';
import { Rich } from '../shared/Rich.tsx';
import { useDerived } from '../shared/piece.ts';
import './class-lines.css';

export function ClassLines({ names }: { readonly names: readonly string[] }) {
  const id = useId();
  const { scene, plan } = useDerived();
  if (plan.class === undefined) return null;
  return (
    <section className="class-lines" aria-labelledby={id}>
      <h3 id={id}>The class</h3>
      {classLines(scene, plan.class).map((line) => <p key={line}><Rich text={line} names={names} /></p>)}
    </section>
  );
}
