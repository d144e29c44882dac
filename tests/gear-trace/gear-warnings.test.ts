import { describe, expect, it } from 'vitest';
import { gearWarnings } from '../../src/gear-trace/disagreement/gear-warnings.ts';
import { MadeRide, madeBike, madeLog } from './made-ride.ts';

/** Codes of what is said of a ride without gear records on a bike of 40 teeth and 2100 mm, by what it shows. */
function said(ring: number, rolloutMm: number): string[] {
  const { speedMps, cadenceRpm } = new MadeRide().pedal(60).log();
  const plain = madeLog({ speedMps: [...speedMps], cadenceRpm: [...cadenceRpm] });
  const measured = { chainrings: [ring], cassette: [...madeBike.cassette], rolloutM: rolloutMm / 1000 };
  return gearWarnings(plain, madeBike, { measured, rolloutMm, drifts: false }).map(({ code }) => code);
}

describe('gearWarnings', () => {
  it('says once that rollout or ring is another: ratios do not tell the two apart', () => {
    expect(said(38, 2100 * 0.945)).toEqual(['rollout-differs']);
    expect(said(42, 2100 * 1.05)).toEqual(['rollout-differs']);
  });

  it('says of a ring that is off by something else that it is', () => {
    expect(said(38, 2100)).toEqual(['teeth-differ']);
    expect(said(44, 2100 * 0.945)).toEqual(['rollout-differs', 'teeth-differ']);
  });

  it('says nothing where all is as written', () => {
    expect(said(40, 2110)).toEqual([]);
  });
});
