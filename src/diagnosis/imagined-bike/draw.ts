import { type Assumption, type AssumptionName, assumptions } from '../assumptions.ts';
import { logit } from './ranges.ts';

/**
 * Dimensions of a draw: the named assumptions first, each a dimension of its own so that the sensitivity check can hold
 * it to a part of its range, then the free shapes of a fault.
 */
export const assumptionNames = Object.keys(assumptions) as AssumptionName[];
const shapes = [
  'ceiling',
  'backgroundMissed',
  'leastMissed',
  'overshootCeiling',
  'offsetSide',
  'tiltSide',
  'friction',
  'clear',
  'rider',
  'shape',
  'side',
  'share',
  'slope',
  'cureOwn',
  'cureByTheWay',
] as const;
type Shape = (typeof shapes)[number];
/** Dimensions of the unit cube that setups are drawn from. */
export const DRAW_DIMENSIONS = assumptionNames.length + shapes.length;

/** 97.5 % point of the standard logistic distribution. */
const logistic975 = Math.log(0.975 / 0.025);

/** Value at the share `u` of an assumption's spread: logistic on a log scale, so with heavy tails, cut at 0.5 %. */
function assumedValue(assumption: Assumption, u: number): number {
  const held = Math.min(0.995, Math.max(0.005, u));
  const middle = Math.log(assumption.low * assumption.high) / 2;
  return Math.exp(middle + ((Math.log(assumption.high / assumption.low) / 2) * logit(held)) / logistic975);
}

/** One point of the unit cube: the assumptions at their values, the free shapes between 0 and 1. */
export interface Draw {
  readonly assumed: Readonly<Record<AssumptionName, number>>;
  readonly shape: Readonly<Record<Shape, number>>;
}

/** The point in row `row` of `points`, row-major with `DRAW_DIMENSIONS` columns, values 0 to 1. */
export function readDraw(points: Float64Array, row: number): Draw {
  const from = row * DRAW_DIMENSIONS;
  const assumed = {} as Record<AssumptionName, number>;
  const shape = {} as Record<Shape, number>;
  assumptionNames.forEach((name, i) => {
    assumed[name] = assumedValue(assumptions[name], points[from + i]);
  });
  shapes.forEach((name, i) => {
    shape[name] = points[from + assumptionNames.length + i];
  });
  return { assumed, shape };
}

/** So many values of an assumption, each as likely as another before anything was seen. */
export const assumedBeforehand = (name: AssumptionName, count: number): number[] =>
  Array.from({ length: count }, (_, i) => assumedValue(assumptions[name], (i + 0.5) / count));

/** A draw's position within an assumption's spread, 0 to 1. */
export function assumptionShare(points: Float64Array, row: number, name: AssumptionName): number {
  return points[row * DRAW_DIMENSIONS + assumptionNames.indexOf(name)];
}
