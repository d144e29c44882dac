import type { TurnEstimate } from '../diagnosis.ts';

/**
 * How many clicks or steps a fault of the indexing may take in all, as a sentence to append.
 *
 * @param inboard whether they are turned inboard: what of the interval lies on the other side is not counted
 */
export function turnsInAll({ unit, low, high }: TurnEstimate, inboard: boolean): string {
  const noun = unit === 'clicks' ? 'click' : 'step';
  const [near, far] = inboard ? [low, high] : [-high, -low];
  const from = Math.max(1, Math.round(near));
  return ` In all it may take ${from} to ${Math.max(from + 1, Math.round(far))} ${noun}s: how far one ${noun} moves differs from bike to bike.`;
}
