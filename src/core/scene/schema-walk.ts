/** Steps down a scene's schema beside a document: for unknown fields, and for what a missing one may hold. */
import * as v from 'valibot';

/** Enough of a valibot schema to walk it. */
export interface Walkable {
  readonly type: string;
  readonly entries?: Readonly<Record<string, Walkable>>;
  readonly wrapped?: Walkable;
  readonly item?: Walkable;
  readonly key?: string;
  readonly options?: readonly Walkable[];
  readonly pipe?: readonly Walkable[];
  readonly literal?: unknown;
}

/** The schema that says something of its own: what an optional wraps, the list of a pipe, the variant a value's tag names. */
export function settled(schema: Walkable, value: unknown): Walkable {
  if (schema.pipe) return settled({ ...schema.pipe[schema.pipe.length - 1], pipe: undefined }, value);
  if (schema.wrapped) return settled(schema.wrapped, value);
  if (schema.type !== 'variant' || !schema.options || !schema.key) return schema;
  const tag = (value as Record<string, unknown> | null)?.[schema.key];
  return schema.options.find((candidate) => candidate.entries?.[schema.key!]?.literal === tag) ?? schema;
}

/** What may stand at a path where the document has nothing, in the schema's own words; null where no schema says. */
export function expectedAt(root: Walkable, path: readonly { readonly key?: unknown; readonly input?: unknown }[]): string | null {
  let schema: Walkable | undefined = root;
  for (const { key, input } of path) {
    const here: Walkable = settled(schema, input);
    schema = typeof key === 'number' ? here.item : here.entries?.[String(key)];
    if (!schema) return null;
  }
  const tried = v.safeParse(schema as unknown as v.GenericSchema, undefined);
  return tried.success ? null : wordsOf(tried.issues[0]);
}

/** What may stand there: the schema's own words, ours for what it leaves to the library. */
export function wordsOf(issue: v.BaseIssue<unknown>): string {
  if (!issue.message.startsWith('Invalid')) return issue.message;
  if (issue.expected === 'Object') return 'an object { … }';
  if (issue.expected === 'Array') return 'a list [ … ]';
  return issue.expected ?? 'something else';
}
