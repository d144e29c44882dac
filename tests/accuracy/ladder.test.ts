import { expect, it } from 'vitest';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { type LadderRide, ladderPlan } from './ladder-plan.ts';
import { scoreLadder } from './score-ladder.ts';

const plan = ladderPlan(1, 2);
const rideOf = (name: string, speedSource: 'wheel' | 'satellite'): LadderRide => {
  const ride = plan.find((one) => one.bike.name === name && one.speedSource === speedSource);
  if (!ride) throw new Error(`no ride of ${name}`);
  return ride;
};

/** Some of the rides of `npm run accuracy -- --only ladder`; the full run says how often it is right. */
it.each([
  ['1 ring, 10-51', 'satellite'],
  ['1 ring, 11-34', 'satellite'],
  ['2 rings, 11-34', 'satellite'],
] as const)('guesses %s right up to a scale from half an hour without gear records, %s', (name, speedSource) => {
  const { bike, ...options } = rideOf(name, speedSource);
  const [{ log }] = simulateRides({ ...options, bike });
  expect(scoreLadder(log, bike)).toMatchObject({ ringsRight: true, right: true });
});
