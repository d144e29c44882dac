import { upperFirst } from '../numeric/upper-first.ts';
import type { Adjustment } from './adjustment.ts';

const names: Readonly<Record<Adjustment['parameter'], string>> = {
  'cable-tension': 'cable tension',
  'index-offset': 'index offset',
  'low-limit': 'low limit screw',
  'high-limit': 'high limit screw',
  'pulley-gap': 'pulley gap (B-screw)',
  hanger: 'derailleur hanger',
  'cable-and-housing': 'cable and housing',
  chain: 'chain',
  cassette: 'cassette',
  wheel: 'wheel',
};

/** What a positive amount does, and what a negative one does. */
const senses: Readonly<Record<string, readonly [string, string]>> = {
  'cable-tension': ['anticlockwise, more tension', 'clockwise, less tension'],
  'index-offset': ['inboard', 'outboard'],
  'low-limit': ['clockwise, in', 'anticlockwise, out'],
  'high-limit': ['clockwise, in', 'anticlockwise, out'],
  'pulley-gap': ['clockwise, further from the cogs', 'anticlockwise, closer to the cogs'],
};

/** As much of an adjustment as is put into words: also one from a report. */
interface Made {
  readonly parameter: string;
  readonly amount: number | null;
  readonly unit: string;
}

/** A parameter or part as a mechanic says it; as it is written where it is none of ours. */
export function parameterName(parameter: string): string {
  return names[parameter as Adjustment['parameter']] ?? parameter;
}

/** The same at the beginning of a sentence. */
export const parameterTitle = (parameter: string): string => upperFirst(parameterName(parameter));

/** What an amount of 0 says. */
const FOUND_RIGHT = 'looked at, found right';

/**
 * One adjustment in few words; an amount of 0 is a look.
 *
 * @example amountWords({ parameter: 'cable-tension', amount: 2, unit: 'clicks' }) // 'cable tension +2 clicks'
 */
export function amountWords({ parameter, amount, unit }: Made): string {
  const name = parameterName(parameter);
  if (amount === 0) return `${name} ${FOUND_RIGHT}`;
  if (amount === null) return `${name} ${parameter === 'hanger' ? 'aligned or replaced' : 'replaced'}`;
  return `${name} ${amount > 0 ? '+' : ''}${amount} ${Math.abs(amount) === 1 ? unit.replace(/s$/, '') : unit}`;
}

/**
 * One adjustment in words, with what turning it so does.
 *
 * @example adjustmentWords({ parameter: 'cable-tension', amount: 2, unit: 'clicks' })
 *   // 'cable tension +2 clicks (anticlockwise, more tension)'
 */
export function adjustmentWords(made: Made): string {
  const { parameter, amount } = made;
  const sense = amount ? senses[parameter]?.[amount < 0 ? 1 : 0] : undefined;
  return amountWords(made) + (sense ? ` (${sense})` : '');
}
