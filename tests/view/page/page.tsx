/** The mold view alone, with a parent that keeps a small scene and writes down what it is told. For the browser test beside it. */
import { StrictMode, useState, type ReactNode } from 'react';
import { createRoot } from 'react-dom/client';
import { readScene } from '../../../src/core/scene/read.ts';
import type { Placement } from '../../../src/core/scene/scene.ts';
import { poseSolid } from '../../../src/core/solid/pose.ts';
import { MoldView } from '../../../src/view/mold-view.tsx';
import { viewModel, viewPicture } from '../../../src/view/view-files.ts';
import type { SeenFrom, ViewSolid } from '../../../src/view/props.ts';
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
  ],
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
const pours = [{ index: 1, fromMm: 0, toMm: 20 }, { index: 2, fromMm: 20, toMm: 30 }, { index: 3, fromMm: 30, toMm: 40 }];

function Page(): ReactNode {
  const [scene, setScene] = useState(first);
  const [selected, setSelected] = useState<readonly string[]>(['f1']);
  const [seenFrom, setSeenFrom] = useState<SeenFrom>('corner');
  Object.assign(window, { view: { said, viewPicture, viewModel, setSeenFrom, placementOf: (id: string) => scene.placements.find((p) => p.id === id) } });
  return (
    <div style={{ width: 640, height: 560, background: COLORS.ground }}>
      <MoldView
        scene={scene} solids={solids} planes={[{ id: 'p1', name: 'Shadows', atMm: 20 }]} pours={pours} selected={selected} locked={['f2']} seenFrom={seenFrom}
        colors={COLORS} reducedMotion={query.has('still')}
        onSelect={(ids, how) => {
          said.push(['select', ...ids, how]);
          setSelected(ids);
        }}
        onDrag={(change, phase) => {
          said.push([phase, change]);
          setScene((old) => ({ ...old, placements: old.placements.map((p): Placement => (p.id !== change.id || p.kind === 'plane' ? p : {
            ...p, xMm: change.xMm ?? p.xMm, yMm: change.yMm ?? p.yMm, baseMm: change.baseMm ?? p.baseMm, turnDeg: [p.turnDeg[0], p.turnDeg[1], change.turnZDeg ?? p.turnDeg[2]],
          })) }));
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
