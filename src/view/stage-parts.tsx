/** The parts of the picture as React sees them. Each makes one renderer object, owns it, and hands it to the stage. */

import { useFrame } from '@react-three/fiber';
import { useEffect, useLayoutEffect, useMemo, type ReactNode } from 'react';
import type { Mold } from '../core/scene/scene.ts';
import { mixed, rgbOf } from './color.ts';
import { CreatureModel } from './creature-model.ts';
import { waterBands, waterLevel } from './drawing.ts';
import { MoldModel } from './mold-model.ts';
import { outlineOf } from './outline.ts';
import { PaintedSheet } from './painted-sheet.ts';
import type { MoldViewProps, ViewColors, ViewCreature, ViewPlane, ViewPour, ViewSolid } from './props.ts';
import { SolidModel } from './solid-model.ts';
import type { Stage } from './stage.ts';

export function StageParts({ stage, props }: { stage: Stage; props: MoldViewProps }): ReactNode {
  const { scene, solids, planes, pours, poured, colors } = props;
  // Drawn by hand (a priority above 0 says so), because the next frame is asked for when this one is done.
  useFrame(({ gl, scene: root, camera }) => stage.drawFrame(() => gl.render(root, camera)), 1);
  return (
    <>
      <MoldPart stage={stage} mold={scene.mold} fillMm={scene.fillMm} pours={pours} poured={poured} colors={colors} />
      {solids.map((solid) => {
        const placement = scene.placements.find((p) => p.id === solid.id);
        const turnZDeg = solid.turnZDeg ?? (placement && placement.kind !== 'plane' ? placement.turnDeg[2] : 0);
        return <SolidPart key={solid.id} stage={stage} solid={solid} turnZDeg={turnZDeg} colors={colors} />;
      })}
      {props.creatures?.map((creature) => <CreaturePart key={creature.id} stage={stage} creature={creature} colors={colors} />)}
      {planes.map((plane) => <SheetPart key={plane.id} stage={stage} plane={plane} mold={scene.mold} colors={colors} />)}
    </>
  );
}

interface DrawnMold {
  readonly mold: Mold;
  readonly fillMm: number;
  readonly pours: readonly ViewPour[];
  readonly poured?: number;
  readonly colors: ViewColors;
}

/** Pours arrive anew with every plan; the drawing changes only when what they say does. */
function MoldPart({ stage, ...drawn }: DrawnMold & { stage: Stage }): ReactNode {
  const paper = JSON.stringify(drawn.colors);
  const said = JSON.stringify(drawn);
  const model = useMemo(() => new MoldModel(JSON.parse(paper) as ViewColors, stage.water), [paper, stage]);
  useKept(stage, model);
  useLayoutEffect(() => {
    const { mold, fillMm, pours, poured, colors } = JSON.parse(said) as DrawnMold;
    const bands = waterBands(pours, fillMm, colors);
    const water = rgbOf(colors.water);
    stage.water.uWater.value.set(...mixed(bands[0]?.color ?? water, water, 0.35));
    model.setLook({ outline: outlineOf(mold), fillMm, levelMm: waterLevel(pours, poured, fillMm), bands, colors }, poured !== undefined);
    stage.setMold(model);
  }, [said, model, stage]);
  return <primitive key={model.group.uuid} object={model.group} dispose={null} />;
}

function SolidPart({ stage, solid, turnZDeg, colors }: { stage: Stage; solid: ViewSolid; turnZDeg: number; colors: ViewColors }): ReactNode {
  const { positions, indices, turnZDeg: ownTurn } = solid;
  const paper = JSON.stringify(colors);
  // The placement's turn counts only at the moment the form arrives; later it is a turn of the form.
  const model = useMemo(
    () => new SolidModel({ ...solid, positions, indices }, turnZDeg, { colors: JSON.parse(paper) as ViewColors, water: stage.water, software: stage.software }),
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [positions, indices, ownTurn, solid.id, solid.kind, paper, stage],
  );
  useLayoutEffect(() => {
    model.begin();
    return stage.addBody(model);
  }, [model, stage]);
  useKept(stage, model);
  return <primitive key={model.group.uuid} object={model.group} dispose={null} />;
}

function SheetPart({ stage, plane, mold, colors }: { stage: Stage; plane: ViewPlane; mold: Mold; colors: ViewColors }): ReactNode {
  const { id, name, art, sketch, guides } = plane;
  // Moving a sheet does not make it anew: only its picture, its size and the paper do.
  const said = JSON.stringify({ id, name, art: art && { url: art.url, widthMm: art.widthMm, heightMm: art.heightMm }, sketch, mold, colors });
  const sheet = useMemo(() => {
    const made = JSON.parse(said) as { id: string; name: string; art?: { url: string; widthMm: number; heightMm: number }; sketch?: ViewPlane['sketch']; mold: Mold; colors: ViewColors };
    const own: ViewPlane = { id: made.id, name: made.name, atMm: 0, art: made.art && { ...made.art, xMm: 0, yMm: 0, turnDeg: 0, mirror: false }, sketch: made.sketch };
    return new PaintedSheet(own, outlineOf(made.mold), made.colors, stage.water, () => stage.placeAll());
  }, [said, stage]);
  useLayoutEffect(() => sheet.setGuides(guides ?? []), [sheet, guides]);
  useLayoutEffect(() => stage.addSheet(sheet), [sheet, stage]);
  useKept(stage, sheet);
  return <primitive key={sheet.object.uuid} object={sheet.object} dispose={null} />;
}

function CreaturePart({ stage, creature, colors }: { stage: Stage; creature: ViewCreature; colors: ViewColors }): ReactNode {
  const { id, contours, drawnAt } = creature;
  const paper = JSON.stringify(colors);
  const model = useMemo(() => new CreatureModel({ id, contours, drawnAt }, JSON.parse(paper) as ViewColors, stage.water), [id, contours, drawnAt, paper, stage]);
  useLayoutEffect(() => stage.addBody(model), [model, stage]);
  useKept(stage, model);
  return <primitive key={model.group.uuid} object={model.group} dispose={null} />;
}

/** The owner of a part's GPU resources. */
function useKept(stage: Stage, part: { dispose(): void }): void {
  useEffect(() => {
    stage.keep(part);
    return () => stage.retire(part);
  }, [stage, part]);
}
