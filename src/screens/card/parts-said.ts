/** What the outline says of the parts of the card that have no lines of their own there, and where each of them stands. */
import { boxOfFile } from '../../core/scene/edit/air.ts';
import { classOf } from '../../core/scene/edit/class.ts';
import { swatchOf } from '../../core/scene/edit/clarity.ts';
import type { SceneFile } from '../../core/scene/edit/file.ts';
import { finishOf } from '../../core/scene/edit/finishing.ts';
import { formulaIn } from '../../core/scene/edit/formulas.ts';
import { kitSizes } from '../../core/scene/edit/prices.ts';
import { stockOf } from '../../core/scene/edit/stock.ts';
import { GOAL_CHOICES, goalOf } from '../../core/scene/edit/wishes.ts';
import { counted, plain } from '../../core/units/format.ts';
import { dayAndTime } from '../../core/units/when.ts';
import { formulasIn } from './FormulasSection.tsx';
import { PLACES } from './PieceParts.tsx';
import { isPriced } from './PriceSection.tsx';

export interface PartSaid {
  readonly words: string;
  readonly place: string;
  /** The formula on whose card it stands; left out: the piece's own. */
  readonly formula?: string;
}

export function partsSaid(file: SceneFile): readonly PartSaid[] {
  const goal = goalOf(file);
  const chips = file.fills.filter(({ tint }) => swatchOf(tint) !== null).length;
  const start = file.bench?.start;
  const meeting = classOf(file);
  const box = boxOfFile(file);
  return [
    { place: PLACES.resin, words: `Tint, and how clear it gets: ${chips === 0 ? 'no chip of dye poured' : `a chip of dye for ${counted(chips, 'fill')}`}` },
    { place: PLACES.goal, words: `Goal: ${GOAL_CHOICES.find(({ value }) => value === goal)?.words}` },
    { place: PLACES.bench, words: `First day and bench hours: ${start === undefined ? 'no first day' : dayAndTime(start)}` },
    { place: PLACES.class, words: `Class: ${meeting === null ? 'none' : `${counted(meeting.students, 'student')}, ${dayAndTime(meeting.at)}`}` },
    { place: PLACES.room, words: `Air of the room, and curing box: ${box === null ? 'no box' : `a box at ${plain(box.temperatureC, 1)} °C`}` },
    { place: PLACES.finish, words: `Finish: ${finishOf(file) === null ? 'not planned' : 'planned'}` },
    { place: PLACES.price, words: `Price and hours: ${isPriced(file) ? 'counted' : 'not counted'}` },
    ...formulasIn(file).map(({ id, name }) => ({ place: PLACES.kits, formula: id, words: `Kits of ${name}: ${kitWords(file, id)}` })),
  ];
}

function kitWords(file: SceneFile, id: string): string {
  const sizes = kitSizes(formulaIn(file, id)!).length;
  const onHand = stockOf(file, id).length;
  return `${sizes === 0 ? 'no price' : counted(sizes, 'size')}, ${onHand === 0 ? 'none on hand' : `${onHand} on hand`}`;
}
