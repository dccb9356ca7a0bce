/** The way to a plane's 1:1 template on the Sheet screen. */
import { templateHash } from './route.ts';

export function TemplateLink({ plane: { id, name }, words = 'Its template, true to size' }: { readonly plane: { readonly id: string; readonly name?: string }; readonly words?: string }) {
  return <a className="link" href={templateHash(id)} aria-label={`${words}: ${name ?? id}`}>{words}</a>;
}
