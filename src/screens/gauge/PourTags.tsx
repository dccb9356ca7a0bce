/** One tag a pour, at its band's right: its number and depth. Choosing it chooses the pour everywhere. */
import { lengthIn, lengthNumber } from '../../core/units/in-units.ts';
import type { GaugeProps } from './Gauge.tsx';
import type { GaugeTag } from './gauge-model.ts';
import { safeDepthIn, safeWords } from './SafeMarks.tsx';

export interface PourTagsProps extends Pick<GaugeProps, 'halted' | 'safe' | 'marked' | 'mark' | 'chosen' | 'onChoose' | 'unit'> {
  readonly tags: readonly GaugeTag[];
  /** Number and depth on one line. */
  readonly lines: boolean;
  readonly leftPx: number;
  readonly widthPx: number;
}

export function PourTags({ tags, lines, leftPx, widthPx, halted, safe, marked, mark, chosen, onChoose, unit }: PourTagsProps) {
  return (
    <div role="group" aria-label="Pours on the gauge">
      {[...tags].reverse().map(({ pour, depthMm, fromMm, toMm, tagY }) => {
        const safeMm = safe.get(pour);
        const classes = ['tag', lines && 'tag-line', halted.has(pour) && 'tag-halt', marked.has(pour) && mark && `tag-${mark}`].filter(Boolean).join(' ');
        return (
          <button
            key={pour}
            type="button"
            className={classes}
            aria-pressed={chosen === pour}
            aria-label={`Pour ${pour}, ${lengthIn(depthMm, unit)}, from ${lengthIn(fromMm, unit)} to ${lengthIn(toMm, unit)} up${safeWords(depthMm, safeMm, unit)}${halted.has(pour) ? ', do not pour' : ''}`}
            style={{ left: leftPx, top: tagY, minWidth: widthPx }}
            onClick={() => onChoose(pour)}
          >
            <span className="tag-number">{pour}</span>
            <span className="tag-depth">{lines ? lengthNumber(depthMm, unit) : lengthIn(depthMm, unit)}</span>
            {!lines && chosen === pour && safeMm !== undefined && <span className="tag-depth">of {safeDepthIn(safeMm, unit)}</span>}
          </button>
        );
      })}
    </div>
  );
}
