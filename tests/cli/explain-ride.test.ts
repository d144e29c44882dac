import { expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { explainRide } from '../../src/cli/explain-ride.ts';
import { at } from '../shifts/warmed-up.ts';

it('says when each chain was lost, how sure that is and why', () => {
  const ride = at(7).pedal(12).command(8).pedal(2);
  const lostAtS = ride.nowS;
  ride.spinInVain(4, 116, 10).coast(5).brake(4, 0).stand(40).pedal(60);
  const told = explainRide(analyseRide(ride.log(), ride.bike));
  expect(told.length).toBe(6);
  const minutes = Math.floor(lostAtS / 60);
  const clock = `0:0${minutes}:${String(lostAtS - 60 * minutes).padStart(2, '0')}`;
  expect(told[5]).toContain(`    chain drop ${clock} into the ride (over 99 % sure). Why: the legs ran `);
  expect(told[5]).toMatch(
    /power fell to 10 W, the end cog had been asked for 2 s before and .*the bike stood for \d+ s\.$/,
  );
});
