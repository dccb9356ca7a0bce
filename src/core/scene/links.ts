/** Links from a scene to the files beside it: relative paths that never leave the scene's own folder, and never a URL. */

/** Longer than any path a person would use, characters. */
const LONGEST_LINK = 1024;

/** The one spelling of a link: its parts joined by `/`, no `.`, no empty part. The link has no flaw. */
export function normalLink(link: string): string {
  return parts(link).join('/');
}

/** `newt.stl` of `assets/newt.stl`. */
export function lastPart(path: string): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

/** What is wrong with a link, as the rest of a sentence; null when nothing is. */
export function linkFlaw(link: string): string | null {
  if (link.length > LONGEST_LINK) return `is longer than ${LONGEST_LINK.toLocaleString('en-US')} characters`;
  if (link.includes('\0')) return 'holds a NUL';
  if (link.includes('\\')) return 'holds a backslash';
  if (link.startsWith('/')) return 'is absolute';
  if (/^[a-z][a-z0-9+.-]*:/i.test(link)) return link[1] === ':' ? 'starts with a drive letter' : 'is a URL';
  if (link.split('/').includes('..')) return 'leads out of its folder';
  if (parts(link).length === 0 || link.endsWith('/')) return 'names no file';
  return null;
}

function parts(link: string): string[] {
  return link.split('/').filter((part) => part !== '' && part !== '.');
}
