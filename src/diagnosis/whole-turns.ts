import type { TurnEstimate } from './diagnosis.ts';

/** A click or a step is whole: nothing less can be turned. */
export interface WholeTurns {
  readonly noun: 'click' | 'step';
  readonly fewest: number;
  readonly about: number;
  readonly most: number;
}

/** An estimate in whole clicks or steps on the side to which they are turned. What of the interval lies on the other side is not counted. */
export function wholeTurns({ unit, mean, low, high }: TurnEstimate, inboard: boolean): WholeTurns {
  const [near, middle, far] = inboard ? [low, mean, high] : [-high, -mean, -low];
  const fewest = Math.max(1, Math.round(near));
  const most = Math.max(fewest + 1, Math.round(far));
  const about = Math.min(most, Math.max(fewest, Math.round(middle)));
  return { noun: unit === 'clicks' ? 'click' : 'step', fewest, about, most };
}
