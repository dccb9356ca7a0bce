/**
 * What is told of a plan beside its pours and findings: what heat and the calendar ask for, small changes, a class, reasons, steps, the finish, cautions, what to buy, the cost.
 * In one piece and given to planning as a value, because a page's first look at a piece needs none of it.
 */
import { changesOf } from './best/changes-of.ts';
import { calendarFindings } from './best/findings-calendar.ts';
import { cautionsFor } from './cautions.ts';
import { heatFindings } from './findings-heat.ts';
import { finishingOf } from './finishing/finishing.ts';
import { pourHeat } from './heat-of-pour.ts';
import { placeFindings } from './place-findings.ts';
import { whyOf } from './reasons.ts';
import { classHeld } from './runs/class.ts';
import { classFindings, classSteps } from './runs/class-words.ts';
import { costOf } from './shop/cost.ts';
import { shoppingOf } from './shop/shopping.ts';
import { stepsOf } from './steps.ts';

export const TELLING = { calendarFindings, cautionsFor, changesOf, classFindings, classHeld, classSteps, finishingOf, heatFindings, pourHeat, placeFindings, whyOf, costOf, shoppingOf, stepsOf };

export type Telling = typeof TELLING;
