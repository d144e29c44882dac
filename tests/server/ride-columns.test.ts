import { describe, expect, it } from 'vitest';
import { rideColumns } from '../../server/work/ride-columns.ts';
import { analyseRide } from '../../src/analyse.ts';
import { readingAt } from '../../web/charts/timeline/reading-words.ts';
import { makeTrack } from '../../web/charts/timeline/ride-track.ts';
import type { MadeRide } from '../gear-trace/made-ride.ts';
import { at } from '../shifts/warmed-up.ts';

/** What the page reads of the chain at each of these seconds of a ride. */
function chainOn(ride: MadeRide, seconds: readonly number[]): (string | undefined)[] {
  const columns = rideColumns(analyseRide(ride.log(), ride.bike), ride.bike);
  const track = makeTrack(JSON.parse(JSON.stringify(columns)));
  return seconds.map((s) => readingAt(track, s, track.lost).find(({ name }) => name === 'Chain on')?.text);
}

const LOST = 'no cog: drive lost';

describe('the columns of a ride', () => {
  it('have the drive lost up to the last record where the chain never drove again', () => {
    const ride = at(8).pedal(12).spinInVain(4, 116).coast(5).brake(4, 0).stand(40);
    const last = ride.nowS - 1;
    expect(chainOn(ride, [last - 1, last])).toEqual([LOST, LOST]);
  });

  it('have it lost until the first record that was driven again', () => {
    const ride = at(8).pedal(12).spinInVain(4, 116).coast(5).brake(4, 0).stand(40);
    const again = ride.nowS;
    const shown = chainOn(ride.pedal(60), [again - 1, again + 5]);
    expect(shown).toEqual([LOST, '34']);
  });
});
