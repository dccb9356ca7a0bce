/** Lines of RFC 5545: properties folded at 75 octets, text escaped, times; and what entries an earlier file holds. */

/** Octets of a line without its break (RFC 5545 §3.1). */
const LINE_OCTETS = 75;
const CRLF = '\r\n';

/** `BEGIN:NAME` … `END:NAME`, each line ended. */
export function component(name: string, lines: readonly string[]): string {
  return [property('BEGIN', name), ...lines, property('END', name)].join('');
}

/** A folded line. `value` is escaped already; `name` may carry parameters. */
export function property(name: string, value: string): string {
  const folded: string[] = [];
  let line = '';
  let octets = 0;
  for (const letter of `${name}:${value}`) {
    const size = octetsOf(letter);
    if (octets + size > LINE_OCTETS) {
      folded.push(line);
      line = ' ';
      octets = 1;
    }
    line += letter;
    octets += size;
  }
  return `${[...folded, line].join(CRLF)}${CRLF}`;
}

/** A TEXT value (§3.3.11): backslash, semicolon, comma and line breaks escaped; other control characters have no place in it. */
export function text(words: string): string {
  return words
    .replace(/\r\n?/g, '\n')
    .replace(/[\u0000-\u0008\u000b-\u001f\u007f]/g, ' ')
    .replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd')
    .replace(/[\\;,]/g, '\\$&')
    .replace(/\n/g, '\\n');
}

/** A floating local time (§3.3.5, form 1) of a plan's `YYYY-MM-DDTHH:MM`. */
export function dateTime(local: string): string {
  return `${local.replace(/[-:]/g, '')}00`;
}

/** A time in UTC (§3.3.5, form 2). */
export function utc(ms: number): string {
  return `${new Date(ms).toISOString().slice(0, 19).replace(/[-:]/g, '')}Z`;
}

/** A reminder that shows words, before the start or the end of its entry. */
export function alarm(before: string, words: string, related: 'START' | 'END' = 'START'): string {
  return component('VALARM', [property('ACTION', 'DISPLAY'), property(related === 'END' ? 'TRIGGER;RELATED=END' : 'TRIGGER', before), property('DESCRIPTION', text(words))]);
}

export interface EarlierEntry {
  readonly uid: string;
  /** As written. */
  readonly start: string;
  readonly summary: string;
}

/** Entries of a file that an earlier export wrote; whatever else the text is, none. */
export function earlierEntries(file: string): EarlierEntry[] {
  const found: EarlierEntry[] = [];
  for (const block of file.replace(/\r?\n[ \t]/g, '').split(/^BEGIN:VEVENT\r?$/m).slice(1)) {
    const line = (name: string) => new RegExp(`^${name}:(.*?)\\r?$`, 'm').exec(block)?.[1];
    const [uid, start] = [line('UID'), line('DTSTART')];
    if (uid !== undefined && start !== undefined && /^\d{8}T\d{6}$/.test(start)) found.push({ uid, start, summary: line('SUMMARY') ?? '' });
  }
  return found;
}

/** Octets of a character in UTF-8. */
function octetsOf(letter: string): number {
  const point = letter.codePointAt(0)!;
  return point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
}
