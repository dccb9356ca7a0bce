/** The mold filled to the chosen pour, in 3D. The 3D library comes when the pours are there. */
import { Suspense, useMemo } from 'react';
import { useReadyArt } from '../compose/ready-art.ts';
import { viewPlanes, viewPours, viewSolids } from '../compose/scene-now.ts';
import { useComposeUi } from '../compose/ui.ts';
import { useReducedMotion, useViewColors } from '../compose/view-colors.ts';
import { useGuideArt } from '../planes/painted-view.ts';
import { fetched } from '../shared/fetched.tsx';
import { useDerived, usePiece } from '../shared/piece.ts';
import { useSketchPictures, withSketches } from '../sketch/sketch-pictures.ts';

const MoldView = fetched(async () => (await import('../../view/mold-view.tsx')).MoldView);
const NOBODY: readonly string[] = [];

export function PouredPicture({ pour }: { readonly pour: number | null }) {
  const derived = useDerived();
  const files = usePiece((state) => state.files);
  const seenFrom = useComposeUi((ui) => ui.seenFrom);
  const colors = useViewColors();
  const reducedMotion = useReducedMotion();
  const art = useReadyArt(files);
  const { scene, document } = derived;
  const solids = useMemo(() => viewSolids(derived.solids, document), [derived.solids, document]);
  const guides = useGuideArt(colors);
  const sketches = useSketchPictures(document);
  const planes = useMemo(() => withSketches(viewPlanes(scene, art, guides), sketches), [scene, art, guides, sketches]);
  const pours = useMemo(() => viewPours(derived), [derived]);
  const all = useMemo(() => [...scene.placements, ...scene.creatures].map(({ id }) => id), [scene]);
  return (
    <div className="poured-picture">
      <Suspense fallback={<p className="soft">The mold is being drawn …</p>}>
        <MoldView
          scene={scene}
          solids={solids}
          planes={planes}
          pours={pours}
          poured={pour ?? undefined}
          selected={NOBODY}
          locked={all}
          seenFrom={seenFrom}
          onSelect={() => {}}
          onDrag={() => {}}
          colors={colors}
          reducedMotion={reducedMotion}
        />
      </Suspense>
    </div>
  );
}
