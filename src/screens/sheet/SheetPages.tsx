/** The laid-out sheet as pages of SVG in mm: the same primitives that the PDF draws, its texts real texts. */
import { memo, useId, type CSSProperties } from 'react';
import type { Face, HatchItem, PathItem, SheetDocument, SheetItem, SheetPage, TextItem, Tone } from '../../core/sheet/document.ts';
import { MM_PER_POINT } from '../../core/sheet/document.ts';
import { ringsOf } from '../../core/sheet/polygon.ts';
import { hatchPath, ringsPath } from '../../core/sheet/svg-path.ts';
import './sheet-pages.css';

const INK: Readonly<Record<Tone, string>> = { ink: '#000', soft: '#595959', paper: '#fff' };
const FACE: Readonly<Record<Face, string>> = { sans: 'sheet-sans', bold: 'sheet-bold', italic: 'sheet-italic' };
const ANCHOR = { left: 'start', center: 'middle', right: 'end' } as const;
const HALO_MM = 1.1;

export const SheetPages = memo(function SheetPages({ document }: { readonly document: SheetDocument }) {
  return (
    <ol className="sheet-pages" aria-label={document.title}>
      {document.pages.map((page, i) => (
        <li key={i} className={`on-${document.paper}`} style={{ '--paper-width': `${document.widthMm}mm`, '--paper-height': `${document.heightMm}mm` } as CSSProperties}>
          <PageDrawing document={document} page={page} number={i + 1} />
        </li>
      ))}
    </ol>
  );
});

function PageDrawing({ document, page, number }: { readonly document: SheetDocument; readonly page: SheetPage; readonly number: number }) {
  const id = useId();
  const { widthMm, heightMm, originXMm, originYMm } = document;
  return (
    <svg className="sheet-paper" viewBox={`0 0 ${widthMm} ${heightMm}`} role="group" aria-label={`Page ${number}: ${page.title}`} style={{ aspectRatio: `${widthMm} / ${heightMm}` }}>
      <g transform={`translate(${originXMm} ${originYMm})`} strokeLinecap="round" strokeLinejoin="round">
        <Items items={page.items} id={id} />
      </g>
    </svg>
  );
}

function Items({ items, id }: { readonly items: readonly SheetItem[]; readonly id: string }) {
  return items.map((item, i) => {
    const key = `${id}-${i}`;
    if (item.kind === 'text') return <Text key={key} item={item} />;
    if (item.kind === 'path') return <Outline key={key} item={item} />;
    // The build sheet has none.
    if (item.kind === 'picture') return null;
    if (item.kind === 'hatch') return <Hatch key={key} item={item} id={key} />;
    return (
      <g key={key} clipPath={`url(#${key})`}>
        <clipPath id={key}><path d={ringsPath([item.clip], true)} clipRule="evenodd" /></clipPath>
        <Items items={item.items} id={key} />
      </g>
    );
  });
}

function Text({ item }: { readonly item: TextItem }) {
  const halo = item.halo ? { stroke: INK.paper, strokeWidth: HALO_MM, paintOrder: 'stroke' } : {};
  return (
    <text className={FACE[item.face]} x={item.x} y={item.y} fontSize={item.sizePt * MM_PER_POINT} textAnchor={ANCHOR[item.align]} fill={INK[item.tone]} {...halo}>
      {item.text}
    </text>
  );
}

function Outline({ item }: { readonly item: PathItem }) {
  return (
    <path
      d={ringsPath(item.rings, item.closed)}
      fill={item.fill ? INK[item.fill] : 'none'}
      fillRule="evenodd"
      stroke={item.strokeMm > 0 ? INK[item.tone] : 'none'}
      strokeWidth={item.strokeMm}
      strokeDasharray={item.dash?.join(' ')}
    />
  );
}

function Hatch({ item, id }: { readonly item: HatchItem; readonly id: string }) {
  const { path, strokeMm, dash } = hatchPath(item);
  return (
    <g clipPath={`url(#${id})`} aria-hidden="true">
      <clipPath id={id}><path d={ringsPath(item.region.flatMap(ringsOf), true)} clipRule="evenodd" /></clipPath>
      <path d={path} fill="none" stroke="#333" strokeWidth={strokeMm} strokeDasharray={dash?.join(' ')} />
    </g>
  );
}
