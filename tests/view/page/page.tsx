/** The mold view alone, with a parent that keeps a small scene and writes down what it is told. For the browser test beside it. */
import { StrictMode, useState, type ReactNode } from 'react';
import { createRoot } from 'react-dom/client';
import { readScene } from '../../../src/core/scene/read.ts';
import type { Bed, Creature, Figure } from '../../../src/core/scene/scene.ts';
import { poseSolid } from '../../../src/core/solid/pose.ts';
import { MoldView } from '../../../src/view/mold-view.tsx';
import { viewModel, viewPicture } from '../../../src/view/view-files.ts';
import type { SeenFrom, ViewCreature, ViewGuide, ViewPlane, ViewSolid } from '../../../src/view/props.ts';
import { COLORS } from '../paper.ts';

const query = new URLSearchParams(location.search);
const said: unknown[] = [];

const reading = readScene({
  format: 'stillpool.scene', version: 1, name: 'Two stones', fillMm: 40, fills: [{ toMm: 40, formula: 'general' }],
  mold: { shape: 'box', lengthMm: 160, widthMm: 100, heightMm: 50 },
  placements: [
    { id: 'b1', kind: 'bed', name: 'Sand', shape: { type: 'wedge', lengthMm: 160, widthMm: 100, heightMm: 10 } },
    { id: 'p1', kind: 'plane', name: 'Shadows', atMm: 20 },
    { id: 'f1', kind: 'figure', name: 'Stone', shape: { type: 'ellipsoid', lengthMm: 40, widthMm: 24, heightMm: 16 }, baseMm: 20, turnDeg: [0, 0, 30] },
    { id: 'f2', kind: 'figure', name: 'Pebble', shape: { type: 'sphere', radiusMm: 8 }, xMm: -50, yMm: 30, baseMm: 20 },
    ...(query.has('creature') ? [{ id: 'p2', kind: 'plane', name: 'Koi 1', atMm: 28, slices: ['c1'] }] : []),
  ],
  ...(query.has('creature') && { creatures: [{ id: 'c1', name: 'Koi', shape: { type: 'box', lengthMm: 30, widthMm: 16, heightMm: 12 }, xMm: 52, yMm: -24, baseMm: 22 }] }),
});
if (!reading.ok) throw new Error(JSON.stringify(reading.problems));
const first = reading.scene;

const solids = first.placements.flatMap((placement): ViewSolid[] => {
  if (placement.kind === 'plane') return [];
  const { positions, indices } = poseSolid(placement.shape, placement).mesh();
  const { id, kind, name } = placement;
  if (id === 'f1' && query.has('triangles')) return [{ id, kind, name, ...knot(Number(query.get('triangles'))) }];
  return [{ id, kind, name, positions: new Float32Array(positions), indices }];
});
/** The form of the painted creature, and what to paint of it: a patch that its form is not over. */
const drawnAt = { xMm: 52, yMm: -24, baseMm: 22, turnZDeg: 0 };
const forms: ViewCreature[] = [{ id: 'c1', drawnAt, contours: [24, 28, 32].map((atMm) => ({ atMm, loops: [[37, -32, 67, -32, 67, -16, 37, -16]] })) }];
const patch = `data:image/svg+xml,${encodeURIComponent('<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100"><rect width="100" height="100" fill="#d000d0"/></svg>')}`;
const guides: ViewGuide[] = [{ creature: 'c1', drawnAt, url: patch, widthMm: 10, heightMm: 10, xMm: 30, yMm: -24 }];
const planes: ViewPlane[] = first.placements.flatMap(({ id, kind, name, ...at }) => (kind === 'plane' && 'atMm' in at ? [{ id, name, atMm: at.atMm, ...(id === 'p2' && { guides }) }] : []));
/** As a parent may answer: to its own grid. */
const snapped = (mm: number): number => (query.has('snaps') ? 20 * Math.round(mm / 20) : mm);
const pours = [{ index: 1, fromMm: 0, toMm: 20 }, { index: 2, fromMm: 20, toMm: 30 }, { index: 3, fromMm: 30, toMm: 40 }];

function Page(): ReactNode {
  const [scene, setScene] = useState(first);
  const [selected, setSelected] = useState<readonly string[]>(['f1']);
  const [seenFrom, setSeenFrom] = useState<SeenFrom>('corner');
  Object.assign(window, { view: { said, viewPicture, viewModel, setSeenFrom, placementOf: (id: string) => scene.placements.find((p) => p.id === id) } });
  return (
    <div style={{ width: 640, height: 560, background: COLORS.ground }}>
      <MoldView
        scene={scene} solids={solids} planes={planes} creatures={query.has('creature') ? forms : undefined} pours={pours} selected={selected} locked={['f2']} seenFrom={seenFrom}
        colors={COLORS} reducedMotion={query.has('still')}
        onSelect={(ids, how) => {
          said.push(['select', ...ids, how]);
          setSelected(ids);
        }}
        onDrag={(change, phase) => {
          said.push([phase, change]);
          const moved = <T extends Creature | Figure | Bed>(old: T): T => (old.id !== change.id ? old : {
            ...old, xMm: snapped(change.xMm ?? old.xMm), yMm: snapped(change.yMm ?? old.yMm), baseMm: change.baseMm ?? old.baseMm, turnDeg: [old.turnDeg[0], old.turnDeg[1], change.turnZDeg ?? old.turnDeg[2]],
          });
          setScene((old) => ({ ...old, placements: old.placements.map((p) => (p.kind === 'plane' ? p : moved(p))), creatures: old.creatures.map(moved) }));
        }}
        onContextLost={(lost) => said.push(['context', lost])}
        onTurned={() => said.push(['turned'])}
      />
    </div>
  );
}

/** A knobbly ring of about so many triangles. */
function knot(triangles: number): { positions: Float32Array; indices: Uint32Array } {
  const n = Math.floor(Math.sqrt(triangles / 2));
  const positions = new Float32Array(3 * n * n);
  const indices = new Uint32Array(6 * n * n);
  for (let i = 0, k = 0; i < n; i++) {
    for (let j = 0; j < n; j++, k += 6) {
      const [u, v] = [(2 * Math.PI * i) / n, (2 * Math.PI * j) / n];
      const r = 14 + 5 * Math.cos(v) + Math.sin(9 * u + 7 * v);
      positions.set([r * Math.cos(u), r * Math.sin(u), 5 * Math.sin(v)], 3 * (i * n + j));
      const [a, b, c, d] = [i * n + j, ((i + 1) % n) * n + j, ((i + 1) % n) * n + ((j + 1) % n), i * n + ((j + 1) % n)];
      indices.set([a, b, c, a, c, d], k);
    }
  }
  return { positions, indices };
}

const root = document.getElementById('root');
if (root) createRoot(root).render(query.has('strict') ? <StrictMode><Page /></StrictMode> : <Page />);
