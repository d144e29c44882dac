import { figure } from '../numeric/figure.ts';
import type { Adjustment } from './adjustment.ts';

/** What is turned or moved by hand, and which way a positive amount goes, and a negative one. */
const turned: Readonly<Partial<Record<Adjustment['parameter'], readonly [verb: string, plus: string, minus: string]>>> =
  {
    'cable-tension': ['turn the barrel adjuster', 'anticlockwise', 'clockwise'],
    'index-offset': ['move the index offset', 'inboard', 'outboard'],
    'low-limit': ['turn the low limit screw', 'clockwise', 'anticlockwise'],
    'high-limit': ['turn the high limit screw', 'clockwise', 'anticlockwise'],
    'pulley-gap': ['turn the B-screw', 'clockwise', 'anticlockwise'],
  };

/** The ways in which a parameter is turned, by the sign that stands for each in the log; null for a part that is aligned or replaced. */
export function turningWays(parameter: string): { readonly plus: string; readonly minus: string } | null {
  const own = turned[parameter as Adjustment['parameter']];
  return own ? { plus: own[1], minus: own[2] } : null;
}

/**
 * What a hand does for an amount, to stand in a sentence.
 *
 * @example turningWords({ parameter: 'cable-tension', unit: 'clicks', amount: 3 }) // 'turn the barrel adjuster 3 clicks anticlockwise'
 */
export function turningWords({ parameter, unit, amount }: { parameter: string; unit: string; amount: number }): string {
  const [verb, plus, minus] = turned[parameter as Adjustment['parameter']] ?? ['change it', 'on', 'back'];
  const size = Math.abs(amount);
  return `${verb} ${figure(size)} ${size === 1 ? unit.replace(/s$/, '') : unit} ${amount > 0 ? plus : minus}`;
}
