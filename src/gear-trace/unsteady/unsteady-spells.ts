import { forwardBackward } from '../../hmm/forward-backward.ts';
import type { BikeRide } from '../bike-ride.ts';
import type { DecodedGears } from '../decoding/decode-gears.ts';
import type { GearModel } from '../gear-model.ts';
import { betweenCogs } from './between-cogs.ts';
import { SteadyOrNot, UNSTEADY } from './steady-or-not.ts';

/** A stretch of a ride in which the speed drifted, s since the start. */
export interface UnsteadySpell {
  readonly fromS: number;
  readonly toS: number;
}

/**
 * The spells of a ride in which its speed drifted (a receiver that lost its satellites goes on with a guess): there the ratio creeps across
 * the cogs and rests on none, and neither where the chain was nor how it shifted can be told. Empty for a wheel sensor, which counts turns
 * and cannot drift, and without gear records.
 */
export function unsteadySpells(
  { log, commands }: Pick<BikeRide, 'log' | 'commands'>,
  decoded: DecodedGears,
  model: GearModel,
): UnsteadySpell[] {
  if (log.speedSource === 'wheel' || commands.timeS.length === 0) return [];
  const evidence = betweenCogs({ log, commands }, decoded, model);
  const rows = new Float32Array(2 * evidence.length);
  evidence.forEach((logOdds, i) => {
    rows[2 * i + UNSTEADY] = logOdds;
  });
  const chain = new SteadyOrNot(log.timeS);
  const { probability } = forwardBackward(rows, chain, chain.initial);
  return spells(log.timeS, (i) => probability[2 * i + UNSTEADY]);
}

/** The runs of records that are likelier unsteady than not. */
function spells(timeS: Float64Array, unsteady: (record: number) => number): UnsteadySpell[] {
  const found: UnsteadySpell[] = [];
  for (let start = 0; start < timeS.length; start++) {
    if (!(unsteady(start) > 0.5)) continue;
    let end = start;
    while (end + 1 < timeS.length && unsteady(end + 1) > 0.5) end++;
    found.push({ fromS: timeS[start], toS: timeS[end] });
    start = end;
  }
  return found;
}
