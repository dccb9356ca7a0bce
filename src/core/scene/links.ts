/** Links from a scene to the files beside it. */

/** A link is longer than any path a person would use. */
const LINK_MAX = 1024;

/**
 * A link's normal form (`a/b.stl`), or the reason why it can't be followed: it must be a relative path
 * that never leaves the scene's own folder, and never a URL.
 */
export function normalLink(link: string): { ok: true; path: string } | { ok: false; reason: string } {
  const no = (reason: string) => ({ ok: false as const, reason });
  if (link.length === 0 || link.length > LINK_MAX) return no(`a path of 1 to ${LINK_MAX} characters`);
  if (link.includes('\0')) return no('a path without NUL characters');
  if (/^[A-Za-z][A-Za-z0-9+.-]*:/.test(link)) return no('a path beside the scene file, not an address or a drive');
  const path = link.replace(/\\/g, '/');
  if (path.startsWith('/')) return no('a path relative to the scene file');
  const parts: string[] = [];
  for (const part of path.split('/')) {
    if (part === '' || part === '.') continue;
    if (part !== '..') parts.push(part);
    else if (parts.pop() === undefined) return no('a path inside the scene’s own folder');
  }
  return parts.length > 0 ? { ok: true, path: parts.join('/') } : no('a file’s path');
}
