/** Sets the value at a path of the outline, by the edit that belongs to it. Values are already in the kept unit. */
import { isBuiltIn } from '../../resin/formula.ts';
import { BENCH_FIELDS, setBench, setStart, type BenchField } from './bench.ts';
import { fillTo, moveBoundary, setFormula, setTint } from './fills.ts';
import { refused, type EditResult, type SceneFile } from './file.ts';
import { formulaIn, setLabelValue, type LabelField } from './formulas.ts';
import { setHold, setPlaneHours } from './hold.ts';
import { rename } from './keep.ts';
import { moldFields, setMold, type MoldField } from './mold.ts';
import { setHeight, setPlaces, setScale, setTurn } from './move.ts';
import { namePiece, setCast } from './piece.ts';
import { setRoomC } from './room.ts';
import { setSize } from './shape.ts';
import { thing } from './things.ts';
import { setMaterial, setWeight } from './weigh.ts';
import { CLASS_FIELDS } from '../../resin/classes.ts';

export type FieldValue = string | number | boolean | readonly [number, number] | null;

/** `path` as `outlineOf` gives it. `null` clears what may be left out. Refuses a path it doesn't know. */
export function setAt(file: SceneFile, path: string, value: FieldValue): EditResult {
  if (path === 'name') return typeof value === 'string' ? namePiece(file, value) : wanted('a name');
  if (path === 'cast') return value === 'face-up' || value === 'face-down' ? setCast(file, value) : wanted('face-up or face-down');
  if (path === 'fillMm') return typeof value === 'number' ? fillTo(file, value) : wanted('a height');
  const dot = path.indexOf('.');
  const rest = path.slice(dot + 1);
  switch (path.slice(0, Math.max(dot, 0))) {
    case 'mold': return setMoldAt(file, rest, value);
    case 'room': return rest === 'temperatureC' && (typeof value === 'number' || value === null) ? setRoomC(file, value) : unknown(path);
    case 'bench': return setBenchAt(file, rest, value);
    case 'fills': return setFillAt(file, rest, value);
    case 'formulas': return setFormulaAt(file, rest, value);
    case 'placements': return setThingAt(file, rest, value);
    default: return unknown(path);
  }
}

function setMoldAt(file: SceneFile, field: string, value: FieldValue): EditResult {
  if (!moldFields(file.mold.shape).some((info) => info.field === field)) return unknown(`mold.${field}`);
  return typeof value === 'object' && value !== null ? wanted('one value') : setMold(file, field as MoldField, value);
}

function setBenchAt(file: SceneFile, field: string, value: FieldValue): EditResult {
  if (field === 'start') return typeof value === 'string' || value === null ? setStart(file, value) : wanted('a day and hour');
  if (!BENCH_FIELDS.some((info) => info.field === field)) return unknown(`bench.${field}`);
  return typeof value === 'number' || value === null ? setBench(file, field as BenchField, value) : wanted('a number');
}

function setFillAt(file: SceneFile, rest: string, value: FieldValue): EditResult {
  const found = /^(\d{1,6})\.(toMm|formula|tint\.color|tint\.percent)$/.exec(rest);
  if (!found) return unknown(`fills.${rest}`);
  const at = Number(found[1]);
  if (found[2] === 'toMm') return typeof value === 'number' ? moveBoundary(file, at, value) : wanted('a height');
  if (found[2] === 'formula') return typeof value === 'string' ? setFormula(file, at, value) : wanted('a formula');
  if (value === null) return setTint(file, at, null);
  if (found[2] === 'tint.color') return typeof value === 'string' ? setTint(file, at, { color: value }) : wanted('a color like #2f6f73');
  return typeof value === 'number' ? setTint(file, at, { percent: value }) : wanted('percent of dye');
}

function setFormulaAt(file: SceneFile, rest: string, value: FieldValue): EditResult {
  const dot = rest.lastIndexOf('.');
  const [id, field] = [rest.slice(0, dot), rest.slice(dot + 1)];
  if (dot < 0 || (!formulaIn(file, id) && !isBuiltIn(id))) return unknown(`formulas.${rest}`);
  const ratio = field === 'ratioByVolume' || field === 'ratioByMass';
  if (!ratio && !Object.hasOwn(CLASS_FIELDS, field)) return unknown(`formulas.${rest}`);
  if (value === null || (ratio ? Array.isArray(value) : typeof value === 'number')) return setLabelValue(file, id, field as LabelField, value as number | readonly [number, number] | null);
  return wanted(ratio ? 'two parts, like 2 : 1' : 'a number');
}

function setThingAt(file: SceneFile, rest: string, value: FieldValue): EditResult {
  const found = /^(.+)\.(name|atMm|baseMm|xMm|yMm|turnZDeg|scale|hold|massG|material|paintH|dryH|shape\.[A-Za-z]+)$/s.exec(rest);
  const placement = found && thing(file, found[1]);
  if (!found || !placement) return unknown(`placements.${rest}`);
  const [, id, field] = found;
  if (field === 'name') return typeof value === 'string' ? rename(file, id, value) : wanted('a name');
  if (field === 'hold') return value === null || value === 'rests' || value === 'stands' || value === 'fixed' || value === 'rod' || value === 'thread' ? setHold(file, [id], value) : wanted('rests, stands, fixed, rod or thread');
  if (field === 'material') return typeof value === 'string' || value === null ? setMaterial(file, id, value) : wanted('a material');
  if (field === 'massG') return typeof value === 'number' || value === null ? setWeight(file, id, value) : wanted('a weight');
  if (field === 'paintH' || field === 'dryH') return typeof value === 'number' || value === null ? setPlaneHours(file, [id], { [field]: value }) : wanted('hours');
  if (typeof value !== 'number') return wanted('a number');
  if (field === 'atMm' || field === 'baseMm') return setHeight(file, id, value);
  if (field === 'xMm' || field === 'yMm') return setPlaces(file, new Map([[id, { [field]: value }]]));
  if (field === 'scale') return setScale(file, id, value);
  if (field.startsWith('shape.')) return setSize(file, id, field.slice('shape.'.length), value);
  const [x, y] = placement.kind === 'plane' ? [0, 0] : (placement.turnDeg ?? [0, 0, 0]);
  return setTurn(file, id, [x, y, value]);
}

function wanted(what: string): EditResult {
  return refused(`Expected ${what}.`);
}

function unknown(path: string): EditResult {
  return refused(`Nothing can be set at ${path.slice(0, 80)}.`);
}
