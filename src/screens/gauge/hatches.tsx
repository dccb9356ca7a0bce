/** The eight pour hatches, the wall's and the bed's, as patterns in px that are never scaled. */

export const hatchId = (prefix: string, hatch: number | 'wall' | 'bed'): string => `${prefix}-${hatch}`;

/** `prefix` keeps the ids of one drawing apart from another's on the same page. */
export function Hatches({ prefix }: { readonly prefix: string }) {
  const id = (hatch: number | 'wall' | 'bed') => hatchId(prefix, hatch);
  const units = 'userSpaceOnUse';
  return (
    <defs>
      <pattern id={id(1)} width="12" height="12" patternUnits={units}>
        <circle cx="3" cy="3" r="1.15" className="hatch-dot" />
        <circle cx="9" cy="9" r="1.15" className="hatch-dot" />
      </pattern>
      <pattern id={id(2)} width="7" height="7" patternUnits={units} patternTransform="rotate(45)">
        <path d="M0 -1V8" className="hatch-line" strokeWidth="1.25" />
      </pattern>
      <pattern id={id(3)} width="26" height="14" patternUnits={units}>
        <path d="M2 3.5H15M15 10.5H28M-11 10.5H2" className="hatch-line" strokeWidth="1.2" />
      </pattern>
      <pattern id={id(4)} width="9" height="9" patternUnits={units}>
        <path d="M4.5 -1V10" className="hatch-line" strokeWidth="1.1" />
      </pattern>
      <pattern id={id(5)} width="22" height="10" patternUnits={units}>
        <path d="M-1 5.5C4 1.2 6.5 1.2 11 5.5S18 9.8 23 5.5" className="hatch-line" strokeWidth="1.15" />
      </pattern>
      <pattern id={id(6)} width="10" height="10" patternUnits={units}>
        <path d="M0 0L10 10M10 0L0 10" className="hatch-line" strokeWidth="0.95" />
      </pattern>
      <pattern id={id(7)} width="14" height="14" patternUnits={units} patternTransform="rotate(-38)">
        <path d="M3 -1V15M6.6 -1V15" className="hatch-line" strokeWidth="1.15" />
      </pattern>
      <pattern id={id(8)} width="18" height="16" patternUnits={units}>
        <path d="M4.5 1.5V7.5M1.5 4.5H7.5M13.5 9.5V15.5M10.5 12.5H16.5" className="hatch-line" strokeWidth="1.15" />
      </pattern>
      <pattern id={id('wall')} width="6" height="6" patternUnits={units} patternTransform="rotate(-45)">
        <path d="M0 -1V7" className="hatch-wall" />
      </pattern>
      <pattern id={id('bed')} width="17" height="13" patternUnits={units}>
        <path d="M2 4.5q2-3 4.5-.4M10 10.5q2.5-3 5-.2M11.5 3h1M4 10h1.2" className="hatch-bed" />
      </pattern>
    </defs>
  );
}
