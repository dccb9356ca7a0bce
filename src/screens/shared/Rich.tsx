/** A sentence of the plan in the chosen units, in which names of things stand in italics. */
import { Fragment } from 'react';
import { splitAtWords } from '../../core/units/in-units.ts';
import { useWords } from './words.ts';

export interface RichProps {
  readonly text: string;
  readonly names: readonly string[];
}

export function Rich({ text, names }: RichProps) {
  const { planned } = useWords();
  // Every second part is a name.
  return splitAtWords(text, names).map((part, i) => (i % 2 === 1 ? <i key={i}>{part}</i> : <Fragment key={i}>{planned(part)}</Fragment>));
}
