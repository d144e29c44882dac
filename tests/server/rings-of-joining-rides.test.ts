import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { placeRides } from '../../server/work/place-rides.ts';
import type { CandidateBike } from '../../server/work/tasks.ts';
import { guessDrivetrain } from '../../src/gear-trace/guess/guess-drivetrain.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';
import { valleyBike } from './made-rides.ts';
import { temporaryFolder } from './test-server.ts';

const folder = temporaryFolder();
afterAll(() => folder.remove());

/** A ride of one bike on one of its rings, whose records name cogs only. */
function rideOn(ring: number) {
  const { log, bytes } = simulateRides({
    cause: 'no-fault',
    seed: 3,
    durationS: 1500,
    gearRecords: 'rear-only',
    speedSource: 'wheel',
    bike: { ...valleyBike, chainrings: [ring] },
  })[0];
  const kept = { path: join(folder.path, `ring-${ring}`), file: `ring-${ring}.fit` };
  writeFileSync(kept.path, bytes.fit as Uint8Array);
  return { log, kept };
}

describe('a ride that joins a guessed bike whose records name no ring', () => {
  const small = rideOn(34);
  const large = rideOn(50);
  const { bike } = guessDrivetrain([small.log]);
  const candidate: CandidateBike = {
    id: 'a',
    bike,
    rolloutMm: null,
    guessed: true,
    unclear: false,
    ringsUnclear: false,
    recorded: { rear: valleyBike.cassette, front: [] },
    rides: [small.kept],
  };

  it('has it guessed anew where it was on another ring', () => {
    expect(bike.chainrings).toHaveLength(1);
    const answer = placeRides({ rides: [large.kept], bikes: [candidate] });
    expect(answer).toMatchObject({
      bikeId: 'a',
      guess: { bike: { chainrings: [expect.any(Number), expect.any(Number)] } },
    });
  });

  it('leaves it as it is where it shows no other ring', () => {
    const answer = placeRides({ rides: [small.kept], bikes: [candidate] });
    expect(answer).toEqual({ fault: null, bikeId: 'a', guess: null });
  });

  it('has it guessed anew where its rings were not clear', () => {
    const answer = placeRides({ rides: [small.kept], bikes: [{ ...candidate, ringsUnclear: true }] });
    expect(answer).toMatchObject({ bikeId: 'a', guess: { bike } });
  });
});
