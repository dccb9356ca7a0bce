/** Any run of edits keeps the scene openable, its old states whole, and what nobody knows in it untouched. */
import { describe, expect, it } from 'vitest';
import { outlineOf } from '../../../../src/core/scene/outline.ts';
import { readScene } from '../../../../src/core/scene/read.ts';
import type { Bounds } from '../../../../src/core/solid/solid.ts';
import { align, spread } from '../../../../src/core/scene/edit/align.ts';
import { changeArt, putArt, takeArtOff } from '../../../../src/core/scene/edit/art.ts';
import { setBench, setHours, setStart } from '../../../../src/core/scene/edit/bench.ts';
import { addBoundary, fillTo, moveBoundary, removeBoundary, setFormula, setTint } from '../../../../src/core/scene/edit/fills.ts';
import type { AddResult, EditResult, SceneFile } from '../../../../src/core/scene/edit/file.ts';
import { chooseFrom } from '../../../../src/core/scene/edit/choice.ts';
import { creaturesOf, paintFigure, raiseCreatures, removeCreature, setInAgain, setSlices, spacePlanes } from '../../../../src/core/scene/edit/creature.ts';
import { setSwatch, setTarget } from '../../../../src/core/scene/edit/clarity.ts';
import { addOther, LABOR_FIELDS, setLabor } from '../../../../src/core/scene/edit/labor.ts';
import { addKitSize, changeKitSize, removeKitSize, setCurrency } from '../../../../src/core/scene/edit/prices.ts';
import { addStock, changeStock, removeStock } from '../../../../src/core/scene/edit/stock.ts';
import { tried, type Trial } from '../../../../src/core/plan/what-if.ts';
import { formulasOf, ownFormula, removeFormula, renameFormula, setFamily, setLabelValue } from '../../../../src/core/scene/edit/formulas.ts';
import { setHold, setNature, setPlaneHours } from '../../../../src/core/scene/edit/hold.ts';
import { duplicate, remove, rename, setLocked } from '../../../../src/core/scene/edit/keep.ts';
import { setMold, setMoldShape, setMoldSizes } from '../../../../src/core/scene/edit/mold.ts';
import { raise, setHeight, setHeights, setPlaces, setScale, setTurn, shift, turn } from '../../../../src/core/scene/edit/move.ts';
import { setHeatModel } from '../../../../src/core/scene/edit/heat-model.ts';
import { namePiece, setCast } from '../../../../src/core/scene/edit/piece.ts';
import { addBed, addFigure, addPlane } from '../../../../src/core/scene/edit/place.ts';
import { addBoxHours, setBottles, setBox, setHumidity } from '../../../../src/core/scene/edit/air.ts';
import { addColor, changeColor, removeColor, setLamp, setRead } from '../../../../src/core/scene/edit/read.ts';
import { removeRoomFrom, setRoomC, setRoomFrom } from '../../../../src/core/scene/edit/room.ts';
import { setAt, type FieldValue } from '../../../../src/core/scene/edit/set-at.ts';
import { setSize } from '../../../../src/core/scene/edit/shape.ts';
import { strokesOf } from '../../../../src/core/scene/edit/sketch.ts';
import { drawStroke, eraseAlong, takeStrokesOut } from '../../../../src/core/scene/edit/strokes.ts';
import { addFromShelf, formulaForShelf } from '../../../../src/core/scene/edit/shelf.ts';
import { thingsOf } from '../../../../src/core/scene/edit/things.ts';
import { setMaterial, setMeasuredDensity, setWeight, useWay } from '../../../../src/core/scene/edit/weigh.ts';
import { mulberry32 } from '../../../plan/random-scenes.ts';
import { frozen, marksOf, randomFile } from './made-files.ts';

const SEEDS = Array.from({ length: 24 }, (_, i) => i + 1);
const EDITS = 200;

type Result = EditResult | AddResult;
/** Values that no person means. */
const WILD = [NaN, Infinity, -Infinity, 1e308, -1e308, -0, 0, -1, 1e-9, 5e-324, 10_001];
const FAMILIES = ['general', 'low-viscosity', 'coating', 'deep-pour', 'uv'] as const;
const FIELDS = ['maxDepthMm', 'minDepthMm', 'potLifeMin', 'bondOpensH', 'demoldH', 'maxBatchG', 'densityAGPerMl', 'shrinkageFraction'] as const;

class Hand {
  readonly #next: () => number;
  constructor(seed: number) {
    this.#next = mulberry32(seed);
  }
  chance(share: number): boolean {
    return this.#next() < share;
  }
  pick<T>(from: readonly T[]): T {
    return from[this.index(from.length)];
  }
  index(length: number): number {
    return Math.floor(this.#next() * length);
  }
  /** Mostly a plausible number, now and then a wild one. */
  number(low: number, high: number): number {
    return this.chance(0.1) ? this.pick(WILD) : low + this.#next() * (high - low);
  }
  things(file: SceneFile): string[] {
    const all = thingsOf(file).map((placement) => placement.id);
    const some = all.filter(() => this.chance(0.3));
    return this.chance(0.05) ? [...some, 'nobody'] : some;
  }
  thing(file: SceneFile): string {
    const all = thingsOf(file).map((placement) => placement.id);
    return all.length > 0 && !this.chance(0.05) ? this.pick(all) : 'nobody';
  }
  plane(file: SceneFile): string {
    const planes = thingsOf(file).filter(({ kind }) => kind === 'plane');
    return planes.length > 0 && !this.chance(0.1) ? this.pick(planes).id : this.thing(file);
  }
  creature(file: SceneFile): string {
    return this.pick([...creaturesOf(file).map(({ id }) => id), 'nobody']);
  }
  /** From one place to a dozen. */
  line(): (readonly [number, number])[] {
    return Array.from({ length: 1 + this.index(12) }, () => [this.number(-80, 80), this.number(-50, 50)] as const);
  }
  formula(file: SceneFile): string {
    return this.pick([...formulasOf(file).map((formula) => formula.id), ...FAMILIES, 'nobody']);
  }
  fill(file: SceneFile): number {
    return this.chance(0.05) ? this.pick([-1, 0.5, 999, NaN]) : this.index(file.fills.length);
  }
}

function boxes(hand: Hand, file: SceneFile): Map<string, Bounds> {
  return new Map(
    hand.things(file).map((id) => {
      const [x, y, z] = [hand.number(-80, 80), hand.number(-50, 50), hand.number(0, 40)];
      return [id, { min: [x, y, z], max: [x + 10, y + 8, z + 6] } as Bounds];
    }),
  );
}

const MOVES: readonly ((hand: Hand, file: SceneFile) => Result)[] = [
  (h, f) => addFigure(f, { shape: h.pick([{ type: 'sphere', radiusMm: h.number(1, 10) }, { type: 'library', name: 'newt' }, { type: 'mesh', file: h.pick(['assets/a.stl', '../up.stl', 'http://x/y.stl']) }] as const), baseMm: h.number(0, 30), xMm: h.number(-50, 50) }),
  (h, f) => addBed(f, { shape: { type: 'wedge', lengthMm: 100, widthMm: 80, heightMm: h.number(2, 20) }, voidFraction: h.number(0, 0.6) }),
  (h, f) => addPlane(f, h.chance(0.5) ? {} : { atMm: h.number(0, 50) }),
  (h, f) => duplicate(f, h.things(f)),
  (h, f) => remove(f, h.things(f).slice(0, 2)),
  (h, f) => rename(f, h.thing(f), h.pick(['Reed', '', ' ', 'x'.repeat(5000), 'Water lily'])),
  (h, f) => setLocked(f, h.things(f), h.chance(0.4)),
  (h, f) => raise(f, h.things(f), h.number(-20, 20), { riders: h.chance(0.5) }),
  (h, f) => setHeight(f, h.thing(f), h.number(-5, 70), { riders: h.chance(0.5) }),
  (h, f) => setHeights(f, new Map(h.things(f).map((id) => [id, h.number(-5, 70)]))),
  (h, f) => shift(f, h.things(f), h.number(-20, 20), h.number(-20, 20)),
  (h, f) => setPlaces(f, new Map(h.things(f).map((id) => [id, { xMm: h.number(-80, 80) }]))),
  (h, f) => turn(f, h.things(f), h.number(-400, 400)),
  (h, f) => setTurn(f, h.thing(f), [h.number(-90, 90), 0, h.number(-400, 400)]),
  (h, f) => setScale(f, h.thing(f), h.number(0.1, 3)),
  (h, f) => setSize(f, h.thing(f), h.pick(['radiusMm', 'heightMm', 'lengthMm', 'volumeMl', 'rimRadiusMm']), h.number(1, 40)),
  (h, f) => setHold(f, h.things(f), h.pick(['rests', 'stands', 'fixed', 'rod', 'thread', null] as const)),
  (h, f) => setNature(f, h.thing(f), { limitC: h.chance(0.5) ? h.number(30, 90) : null, voidFraction: h.chance(0.2) ? h.number(0, 0.6) : undefined }),
  (h, f) => setPlaneHours(f, h.things(f), { dryH: h.chance(0.3) ? null : h.number(1, 30) }),
  (h, f) => align(f, boxes(h, f), h.pick(['left', 'center', 'right', 'front', 'middle', 'back'] as const)),
  (h, f) => spread(f, boxes(h, f), h.pick(['x', 'y', 'height'] as const)),
  (h, f) => putArt(f, h.thing(f), { file: h.pick(['assets/a.svg', '/etc/a.svg']), widthMm: h.number(10, 200) }),
  (h, f) => changeArt(f, h.thing(f), h.pick([{ turnDeg: h.number(-90, 90) }, { mirror: true }, { widthMm: h.number(10, 200) }])),
  (h, f) => takeArtOff(f, h.thing(f)),
  (h, f) => fillTo(f, h.number(5, f.mold.heightMm * 1.1)),
  (h, f) => moveBoundary(f, h.fill(f), h.number(0, 60)),
  (h, f) => addBoundary(f, h.number(0, 60)),
  (h, f) => removeBoundary(f, h.fill(f)),
  (h, f) => setFormula(f, h.fill(f), h.formula(f)),
  (h, f) => setTint(f, h.fill(f), h.pick([null, { percent: h.number(0, 3) }, { color: h.pick(['#112233', 'teal']) }])),
  (h, f) => ownFormula(f, h.pick(FAMILIES), h.chance(0.5) ? {} : { ratioByVolume: [h.number(1, 4), 1], maxDepthMm: h.number(3, 40) }),
  (h, f) => setLabelValue(f, h.formula(f), h.pick(FIELDS), h.chance(0.3) ? null : h.number(0, 60)),
  (h, f) => setLabelValue(f, h.formula(f), h.pick(['ratioByVolume', 'ratioByMass'] as const), h.chance(0.4) ? null : [h.number(1, 4), 1]),
  (h, f) => setFamily(f, h.formula(f), h.pick(FAMILIES)),
  (h, f) => renameFormula(f, h.formula(f), h.pick(['Slow one', '', '水'])),
  (h, f) => removeFormula(f, h.formula(f)),
  (h, f) => addKitSize(f, h.formula(f), { kitMl: h.number(0, 3000), amount: h.number(0, 90) }),
  (h, f) => changeKitSize(f, h.formula(f), h.index(3), h.chance(0.5) ? { kitMl: h.number(0, 3000) } : { amount: h.number(-1, 90) }),
  (h, f) => removeKitSize(f, h.formula(f), h.index(3)),
  (h, f) => setCurrency(f, h.pick(['USD', '', 'EUR'])),
  (h, f) => addStock(f, h.formula(f), h.number(-10, 2000)),
  (h, f) => changeStock(f, h.index(3), h.pick([{ ml: h.number(0, 900) }, { partAMl: 3 }, { opened: '2026-04-01' }, { opened: null }, { keepsDays: 90 }, { bestBefore: '2026-13-01' }, { price: { kitMl: 1000 } }, { price: null }])),
  (h, f) => removeStock(f, h.index(3)),
  (h, f) => setLabor(f, h.pick(LABOR_FIELDS).field, h.chance(0.3) ? null : h.number(-0.1, 2)),
  (h, f) => addOther(f, { name: h.pick(['Base', '']), amount: h.number(0, 20) }),
  (h, f) => setSwatch(f, h.fill(f), h.chance(0.2) ? null : { percent: h.number(0.01, 1), mm: h.number(1, 20), passes: h.number(0.1, 1.1) }),
  (h, f) => setTarget(f, h.fill(f), h.chance(0.2) ? null : { passes: h.number(0.1, 1.1), how: h.pick(['even', 'deepening'] as const) }),
  (h, f) => chooseFrom(f, h.formula(f), h.chance(0.7)),
  (h, f) => tried(f, [h.pick<Trial>([{ kind: 'room', temperatureC: h.number(-60, 40) }, { kind: 'hours', on: { days: 'Wed' }, from: '07:00', to: '21:00' }, { kind: 'hours', on: { date: '2026-05-06' }, from: '07:00', to: '21:00' }, { kind: 'formula', of: h.formula(f), to: h.formula(f) }, { kind: 'dry', plane: null, hours: h.number(0, 20) }])]),
  (h, f) => {
    const shelf = formulaForShelf(f, h.formula(f));
    return shelf.ok ? addFromShelf(f, h.chance(0.5) ? shelf.formula : { ...shelf.formula, potLifeMin: h.number(10, 90) }) : shelf;
  },
  (h, f) => setWeight(f, h.thing(f), h.chance(0.3) ? null : h.number(0.1, 300)),
  (h, f) => setMaterial(f, h.thing(f), h.pick(['pla', 'cork', 'kryptonite', null])),
  (h, f) => setMeasuredDensity(f, h.thing(f), { volumeMl: h.number(1, 50), massG: h.number(1, 80) }),
  (h, f) => useWay(f, h.thing(f), h.pick(['measured', 'material'] as const)),
  (h, f) => setMold(f, h.pick(['lengthMm', 'widthMm', 'diameterMm', 'heightMm', 'draftDeg', 'cornerRadiusMm', 'wallMm'] as const), h.chance(0.1) ? null : h.number(1, 200)),
  (h, f) => setMold(f, 'material', h.pick(['glass', 'wood', 'cheese', null])),
  (h, f) => setMoldShape(f, h.pick(['box', 'round'] as const)),
  (h, f) => setMoldSizes(f, { heightMm: h.number(20, 90), ...(f.mold.shape === 'box' ? { lengthMm: h.number(20, 300) } : {}) }),
  (h, f) => setBench(f, h.pick(['scaleG', 'holdUpMl', 'allowanceFraction', 'pourH', 'watchH'] as const), h.chance(0.2) ? null : h.number(0, 3)),
  (h, f) => setStart(f, h.pick(['2026-05-04T08:00', '2026-02-30T08:00', null, 'tomorrow'])),
  (h, f) => setHours(f, h.pick([null, [], [{ days: 'Mon-Fri', from: '09:00', to: '17:00' }], [{ days: 'Someday', from: '9', to: '' }]])),
  (h, f) => setRoomC(f, h.chance(0.2) ? null : h.number(10, 30)),
  (h, f) => setHumidity(f, h.chance(0.3) ? null : h.number(-5, 110)),
  (h, f) => setBox(f, h.chance(0.3) ? null : { temperatureC: h.number(5, 65) }),
  (_, f) => addBoxHours(f),
  (h, f) => setLamp(f, h.chance(0.2) ? null : { fromDeg: h.number(-360, 360), aboveDeg: h.number(0, 95) }),
  (h, f) => addColor(f, h.thing(f), h.pick(['#c87137', '#2E4A1E', 'teal', ''])),
  (h, f) => changeColor(f, h.thing(f), h.index(2), h.pick(['#ffffff', '#12345'])),
  (h, f) => removeColor(f, h.thing(f), h.index(2)),
  (h, f) => setRead(f, h.creature(f), h.chance(0.2) ? null : { eyeMm: h.number(10, 900), eyeXMm: h.number(-200, 200), stretch: h.chance(0.5) }),
  (h, f) => drawStroke(f, { plane: h.plane(f), ink: h.pick(['#223344', 'teal']), widthMm: h.number(0.2, 20), softMm: h.number(0, 4), points: h.line().map(([x, y]) => [x, y, h.number(0, 1)]) }),
  (h, f) => drawStroke(f, { plane: h.plane(f), ink: '#223344', widthMm: 4, softMm: 0.5, points: [[-20, 0, 1], [h.chance(0.5) ? 20 : 30, 10, 0.5]] }),
  (h, f) => eraseAlong(f, h.plane(f), { path: h.line(), radiusMm: h.number(0.5, 20) }),
  (h, f) => takeStrokesOut(f, h.plane(f), [h.index(4), h.index(4)]),
  (h, f) => paintFigure(f, h.thing(f), { gapMm: h.number(2, 9), tallMm: h.number(4, 30), minDepthMm: 3, turnOver: h.chance(0.3) }),
  (h, f) => setSlices(f, h.thing(f), [h.creature(f)]),
  (h, f) => spacePlanes(f, h.creature(f), { gapMm: h.number(2, 9), tallMm: h.number(4, 30), minDepthMm: 3 }),
  (h, f) => raiseCreatures(f, [h.creature(f)], h.number(-20, 20)),
  (h, f) => (h.chance(0.5) ? setInAgain(f, h.creature(f)) : removeCreature(f, h.creature(f))),
  (h, f) => setBottles(f, h.chance(0.3) ? null : h.number(0, 70)),
  (h, f) => setRoomFrom(f, h.pick(['2026-05-04T20:00', '2026-05-05T06:00', '2026-13-01T00:00']), h.number(10, 30)),
  (h, f) => removeRoomFrom(f, h.pick(['2026-05-04T20:00', 'never'])),
  (h, f) => namePiece(f, h.pick(['Rock pool', '', 'y'.repeat(3000)])),
  (h, f) => setCast(f, h.pick(['face-up', 'face-down'] as const)),
  (h, f) => setHeatModel(f, h.pick(['label', 'simulated'] as const)),
  (h, f) => outlineEdit(h, f),
];

/** A field of the outline, set to something of its kind or of none. */
function outlineEdit(hand: Hand, file: SceneFile): Result {
  const reading = readScene(file);
  if (!reading.ok) throw new Error('the file can no longer be read');
  const edits = outlineOf(reading.scene, null).flatMap((item) => [item, ...item.children]).flatMap((item) => item.edits);
  const { path, kind, choices } = hand.pick(edits);
  const value: FieldValue = hand.chance(0.1) ? hand.pick(['odd', true, null, [1, 2] as const]) : choices ? hand.pick(choices).value : kind === 'text' ? 'Heron' : kind === 'ratio' ? [2, 1] : kind === 'color' ? '#405060' : kind === 'yes-no' ? hand.chance(0.5) : hand.number(0, 60);
  return setAt(file, path, value);
}

describe('any run of edits', () => {
  it.each(SEEDS)('keeps the scene openable, its past whole, the unknown untouched (seed %i)', (seed) => {
    const hand = new Hand(seed);
    let file = randomFile(seed);
    const past: { file: SceneFile; text: string }[] = [];
    let kept = 0;
    const used = new Set<number>();
    for (let i = 0; i < EDITS; i++) {
      const which = hand.index(MOVES.length);
      const result = MOVES[which](hand, file);
      if (!result.ok) {
        expect(result.reason.length, `edit ${which} refuses without a reason`).toBeGreaterThan(10);
        continue;
      }
      kept++;
      used.add(which);
      expect(result.label, `edit ${which}`).not.toMatch(/undefined|NaN|\[object|^\s*$/);
      const reading = readScene(JSON.parse(JSON.stringify(result.file)));
      expect(reading.ok, `edit ${which}, “${result.label}”: ${JSON.stringify(reading.ok ? '' : reading.problems)}`).toBe(true);
      for (const stroke of strokesOf(result.file)) expect(thingsOf(result.file).find(({ id }) => id === stroke.plane)?.kind, `edit ${which} left a stroke without its plane`).toBe('plane');
      const before = marksOf(file);
      const after = marksOf(result.file);
      for (const [where, mark] of before) {
        const gone = (where.startsWith('thing ') && !thingsOf(result.file).some((placement) => `thing ${placement.id}` === where)) || (where.startsWith('formula ') && !formulasOf(result.file).some((formula) => `formula ${formula.id}` === where));
        if (!gone) expect(after.get(where), `edit ${which} lost what it didn’t know in “${where}”`).toBe(mark);
      }
      past.push({ file, text: JSON.stringify(file) });
      file = frozen(result.file);
    }
    for (const { file: old, text } of past) expect(JSON.stringify(old)).toBe(text);
    expect(kept, 'most edits were refused').toBeGreaterThan(EDITS / 3);
    expect(used.size, 'too few kinds of edit got through').toBeGreaterThan(MOVES.length / 3);
  });
});
