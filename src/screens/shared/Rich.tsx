/** A sentence in which names of things stand in italics. */
import { Fragment } from 'react';

export interface RichProps {
  readonly text: string;
  readonly names: readonly string[];
}

export function Rich({ text, names }: RichProps) {
  const parts = splitAtNames(text, names);
  return parts.map((part, i) => (i % 2 === 1 ? <i key={i}>{part}</i> : <Fragment key={i}>{part}</Fragment>));
}

/** Every second part is a name. Longer names win over shorter ones inside them; parts of words are left alone. */
function splitAtNames(text: string, names: readonly string[]): string[] {
  const known = [...new Set(names.filter((name) => name.trim() !== ''))].sort((a, b) => b.length - a.length);
  if (known.length === 0) return [text];
  const pattern = known.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')).join('|');
  return text.split(new RegExp(`(?<![\\p{L}\\p{N}])(${pattern})(?![\\p{L}\\p{N}])`, 'u'));
}
