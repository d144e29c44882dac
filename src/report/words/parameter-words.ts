import type { AdjustmentReport } from '../report-schema.ts';

const names: Readonly<Record<string, string>> = {
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

/** A parameter or part as a mechanic says it. */
export function parameterName(parameter: string): string {
  return names[parameter] ?? parameter;
}

/** The same at the beginning of a sentence. */
export function parameterTitle(parameter: string): string {
  const name = parameterName(parameter);
  return name.charAt(0).toUpperCase() + name.slice(1);
}

/**
 * One adjustment in words.
 *
 * @example adjustmentWords({ parameter: 'cable-tension', amount: 2, unit: 'clicks' })
 *   // 'cable tension +2 clicks (anticlockwise, more tension)'
 */
export function adjustmentWords(made: Pick<AdjustmentReport, 'parameter' | 'amount' | 'unit'>): string {
  const name = parameterName(made.parameter);
  if (made.amount === null) return `${name} aligned or replaced`;
  const sense = senses[made.parameter]?.[made.amount < 0 ? 1 : 0];
  const unit = Math.abs(made.amount) === 1 ? made.unit.replace(/s$/, '') : made.unit;
  return `${name} ${made.amount > 0 ? '+' : ''}${made.amount} ${unit}${sense && made.amount !== 0 ? ` (${sense})` : ''}`;
}
