/** An SVG cleaned of everything that lives or reaches out; fetched with the first drawing. */
import DOMPurify from 'dompurify';

/** What a drawing may refer to: a part of itself, or a picture it carries. */
const INSIDE = /^\s*(?:#|data:image\/(?:png|jpe?g|webp);)/i;
const REFERENCES: ReadonlySet<string> = new Set(['href', 'xlink:href', 'src']);

/**
 * Scripts, event handlers, foreign documents, links and every reference out of the file are gone. What the page's own
 * content policy would complain of while the text is read (handlers, styles) is put aside first; style sheets come
 * back after, for drawing programs color by them.
 */
export function cleanSvg(text: string): string {
  const sheets: string[] = [];
  const quiet = text
    .replace(/<\?xml[^>]*\?>|<!DOCTYPE[^>[]*(?:\[[^\]]*\])?[^>]*>/gi, '')
    .replace(/\son[a-z]+\s*=\s*(?:"[^"]*"|'[^']*'|[^\s>"']+)/gi, '')
    .replace(/<style\b[^>]*>([\s\S]*?)<\/style\s*>/gi, (_, css: string) => `<g data-sheet="${sheets.push(css) - 1}"></g>`)
    .replace(/\sstyle\s*=\s*("[^"]*"|'[^']*')/gi, ' data-css=$1')
    .replace(/\bxlink:href\b/gi, 'href');
  const purify = DOMPurify(window);
  purify.addHook('uponSanitizeAttribute', (_, attribute) => {
    if (REFERENCES.has(attribute.attrName) && !INSIDE.test(attribute.attrValue)) attribute.keepAttr = false;
  });
  const clean = purify.sanitize(quiet, { USE_PROFILES: { svg: true, svgFilters: true }, ADD_TAGS: ['use'], FORBID_TAGS: ['script', 'style', 'foreignObject', 'a'] });
  const styled = clean
    .replace(/<g data-sheet="(\d+)"><\/g>/g, (_, at: string) => `<style>${plainSheet(sheets[Number(at)] ?? '')}</style>`)
    .replace(/\sdata-css=/g, ' style=');
  return withoutOutsideStyles(styled);
}

/** Text only: no markup can hide in a style sheet. */
function plainSheet(css: string): string {
  return css.replace(/<!\[CDATA\[|\]\]>/g, '').replace(/[<&]/g, '');
}

/** What a style would load from elsewhere goes. */
export function withoutOutsideStyles(text: string): string {
  return text.replace(/@import[^;"'<]*(?:"[^"]*"|'[^']*')?[^;<]*;?/gi, '').replace(/url\(\s*(?!(?:['"]|&quot;)?\s*#)[^)]*\)/gi, 'none');
}
