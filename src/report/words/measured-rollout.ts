import { extent, median } from 'd3-array';
import { counted } from '../../numeric/counted.ts';

/** Rollouts of rides further apart than this share are no single number: tyre pressure, load and calibration differ by less. An assumption of ours. */
const ALIKE = 0.03;

interface MeasuredRollout {
  /** In mm, the least and the greatest where the rides differ. */
  readonly mm: string;
  /** How it was measured: in the units of the teeth that the bike is taken to have, since speed over cadence tells only their product. */
  readonly how: string;
}

/**
 * The rollout that rides show, in words; null where none does.
 *
 * @example measuredRollout([{ rolloutMm: 2295 }, { rolloutMm: 2299.4 }])
 *   // { mm: '2297', how: 'measured with these teeth from 2 rides' }
 */
export function measuredRollout(rides: readonly { readonly rolloutMm: number | null }[]): MeasuredRollout | null {
  const all = rides.flatMap(({ rolloutMm }) => (rolloutMm === null ? [] : [rolloutMm]));
  const [least, greatest] = extent(all);
  if (least === undefined || greatest === undefined) return null;
  const from = all.length === 1 ? 'one ride' : counted(all.length, 'ride');
  if (greatest > least * (1 + ALIKE))
    return {
      mm: `${Math.round(least)} to ${Math.round(greatest)}`,
      how: `measured with these teeth from ${from}, which differ`,
    };
  return { mm: `${Math.round(median(all) as number)}`, how: `measured with these teeth from ${from}` };
}
