import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { bikeSchema } from '../../src/drivetrain/bike.ts';
import { guessDrivetrain } from '../../src/gear-trace/guess/guess-drivetrain.ts';
import { guessFromRecords } from '../../src/gear-trace/guess/guess-from-records.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { withoutRecords } from '../accuracy/without-records.ts';
import { gearRecords, MadeRide, madeBike, madeLog } from './made-ride.ts';
import { rideAllCogs } from './ride-all-cogs.ts';

const standing = { speedMps: [0, 0], cadenceRpm: [0, 0] };
/** The same without a word on the ring. */
const rearOnly = (log: RideLog): RideLog => {
  const none = new Uint8Array(log.gearRecords.timeS.length);
  const gearRecords = { ...log.gearRecords, frontTeeth: none, frontPosition: none };
  return { ...log, gearRecords };
};
const recording = (rows: Parameters<typeof gearRecords>[0]) => madeLog({ ...standing, gearRecords: gearRecords(rows) });

describe('guessFromRecords', () => {
  it('takes the teeth recorded most often at each position', () => {
    const teeth = [34, 30, 26, 23, 20, 17, 15, 13, 11];
    const rows = teeth.flatMap((rearTeeth, i) =>
      [1, 2].map((n) => ({ timeS: n, rear: i + 1, rearTeeth, front: 1, frontTeeth: 40 })),
    );
    const guess = guessFromRecords([
      recording([...rows, { timeS: 3, rear: 4, rearTeeth: 24, front: 1, frontTeeth: 40 }]),
    ]);
    expect(guess?.cassette).toEqual([...teeth].reverse());
    expect(guess?.chainrings).toEqual([40]);
    expect(guess?.actuation).toBe('electronic');
  });

  it('fills in positions that were never used, rising', () => {
    const guess = guessFromRecords([
      recording([
        { timeS: 0, rear: 1, rearTeeth: 34 },
        { timeS: 1, rear: 11, rearTeeth: 11 },
        { timeS: 2, rear: 6, rearTeeth: 19 },
      ]),
    ]);
    expect(guess?.cassette.length).toBe(11);
    expect([guess?.cassette[0], guess?.cassette[5], guess?.cassette[10]]).toEqual([11, 19, 34]);
    expect(guess?.cassette.every((t, i, all) => i === 0 || t > all[i - 1])).toBe(true);
  });

  it('fills in a position whose teeth are no larger than a smaller cog’s, as one that was never used', () => {
    const read = (fifth: number) =>
      guessFromRecords([
        recording(
          [11, 13, 15, 17, fifth, 23, 26, 30, 34].map((rearTeeth, i) => ({ timeS: i, rear: 9 - i, rearTeeth })),
        ),
      ])?.cassette;
    expect(read(19)).toEqual([11, 13, 15, 17, 19, 23, 26, 30, 34]);
    for (const written of [14, 17]) expect(read(written)).toEqual([11, 13, 15, 17, 20, 23, 26, 30, 34]);
  });

  it('reads rides together whose recorders count from either end', () => {
    const teeth = [34, 30, 26, 23, 20, 17, 15, 13, 11];
    const [fromLargest, fromSmallest] = [(i: number) => i + 1, (i: number) => teeth.length - i].map((position) =>
      recording(teeth.map((rearTeeth, i) => ({ timeS: i, rear: position(i), rearTeeth }))),
    );
    expect(guessFromRecords([fromSmallest])?.cassette).toEqual([...teeth].reverse());
    expect(guessFromRecords([fromLargest, fromSmallest])?.cassette).toEqual([...teeth].reverse());
  });

  it('makes no cassette of one cog, though it is named by position and by teeth', () => {
    expect(guessFromRecords([recording([0, 1].map((timeS) => ({ timeS, rear: 4, rearTeeth: 21 })))])).toBeNull();
  });

  it('takes tooth counts where there are no positions, and is null with fewer than two cogs', () => {
    const counts = [11, 13, 15, 17, 21, 25];
    expect(guessFromRecords([recording(counts.map((rearTeeth, timeS) => ({ timeS, rearTeeth })))])?.cassette).toEqual(
      counts,
    );
    expect(guessFromRecords([recording([{ timeS: 0, rearTeeth: 13 }])])).toBeNull();
    expect(guessFromRecords([])).toBeNull();
  });

  it('fills in smaller cogs where the largest that a cog can have is reached', () => {
    const guess = guessFromRecords([recording([45, 51].map((rearTeeth, timeS) => ({ timeS, rearTeeth })))]);
    expect(guess?.cassette).toEqual([32, 38, 45, 51, 60]);
  });

  it('is always a bike that could stand in a bike file, whatever was recorded', () => {
    const row = fc.record({
      rear: fc.integer({ min: 0, max: 15 }),
      rearTeeth: fc.integer({ min: 0, max: 255 }),
      front: fc.integer({ min: 0, max: 4 }),
      frontTeeth: fc.integer({ min: 0, max: 255 }),
    });
    fc.assert(
      fc.property(fc.array(row, { maxLength: 20 }), (rows) => {
        const guess = guessFromRecords([recording(rows.map((one, timeS) => ({ timeS, ...one })))]);
        if (guess) expect(bikeSchema.safeParse(guess).success).toBe(true);
      }),
    );
  });
});

describe('guessDrivetrain', () => {
  const ride = rideAllCogs();
  const log = ride.log();

  it('reads the bike off the records and sets them right by the ride', () => {
    const wrong = log.gearRecords.rearTeeth.map((teeth) => (teeth === 23 ? 24 : teeth));
    const guess = guessDrivetrain([{ ...log, gearRecords: { ...log.gearRecords, rearTeeth: wrong } }]);
    expect(guess.bike.cassette).toEqual(madeBike.cassette);
    expect(guess.certainty).toBeGreaterThan(0.9);
    expect(guess.notes.map(({ code }) => code)).toEqual(['bike-guessed', 'actuation-guessed']);
    expect(guess.notes[0].message).toMatch(/differed/);
  });

  it('reads positions that count from the smallest cog like any others', () => {
    const { rearPosition } = log.gearRecords;
    const mirrored = rearPosition.map((position) => madeBike.cassette.length + 1 - position);
    const guess = guessDrivetrain([{ ...log, gearRecords: { ...log.gearRecords, rearPosition: mirrored } }]);
    expect(guess).toEqual(guessDrivetrain([log]));
    expect(guess.bike.actuation).toBe('electronic');
  });

  it.each([
    [
      'positions without teeth',
      { rearTeeth: log.gearRecords.rearTeeth.map(() => 0) },
      'they name positions (1, 2, 3, 4, 5, 6, 7, 8, 9) and no teeth',
    ],
    [
      'more cogs than a cassette has',
      {
        rearTeeth: log.gearRecords.rearTeeth.map((_, i) => 11 + (i % 14)),
        rearPosition: log.gearRecords.rearPosition.map(() => 0),
      },
      'no bike has the cogs that they name (11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23, 24)',
    ],
  ])('says that gear records are there which make no bike: %s', (_what, records, why) => {
    const { notes } = guessDrivetrain([{ ...log, gearRecords: { ...log.gearRecords, ...records } }]);
    expect(notes.map(({ code }) => code)).toEqual(['bike-guessed', 'gear-records-unused']);
    expect(notes[1].message).toContain(`The gear records make no bike: ${why}. `);
  });

  it('marks a ring that no record names as assumed', () => {
    const [{ message }] = guessDrivetrain([rearOnly(log)]).notes;
    expect(message).toMatch(/a ring of 40 is assumed, and ring and rollout are known up to a common scale only/);
    expect(guessDrivetrain([log]).notes[0].message).not.toMatch(/assumed/);
  });

  it('speaks of no ratio and no scale of the teeth where no ride holds a cadence', () => {
    const silent = { ...rearOnly(log), cadenceRpm: log.cadenceRpm.map(() => Number.NaN) };
    const [{ message }] = guessDrivetrain([silent]).notes;
    expect(message).toContain('no ride shows by its speed and cadence');
    expect(message).toMatch(
      /a ring of 40 is assumed, and nothing in the rides shows its size\. Write the ring into the bike/,
    );
    expect(message).not.toMatch(/scale|ratio/);
  });

  it('names the ring that the bike has where the ratios correct the assumed one, and calls none recorded', () => {
    const geared = rearOnly({ ...log, speedMps: log.speedMps.map((speed) => 0.82 * speed) });
    const { bike, notes } = guessDrivetrain([geared]);
    expect(bike.chainrings[0]).toBeLessThan(36);
    expect(notes[0].message).toContain(`No front teeth are recorded: a ring of ${bike.chainrings[0]} is assumed`);
    expect(notes[0].message).not.toMatch(/recorded rings|differed/);
  });

  it('is the same in whatever order the rides are given, and knows what any of them shows', () => {
    const ridden = (cogs: readonly number[], file: string) => {
      const ride = new MadeRide().pedal(60);
      for (let round = 0; round < 2; round++) for (const cog of cogs) ride.shift(cog).pedal(30);
      return { ...rearOnly(ride.log()), file };
    };
    const [a, b, c] = [
      ridden([5, 6, 7, 6, 5, 4], 'a.fit'),
      ridden([4, 3, 2, 3, 4, 5], 'b.fit'),
      ridden([4, 5, 4, 5, 4, 5], 'c.fit'),
    ];
    const guess = guessDrivetrain([a, b, c]);
    for (const rides of [
      [c, b, a],
      [b, a, c],
    ])
      expect(guessDrivetrain(rides)).toEqual(guess);
    expect(guess.bike.cassette).toEqual(madeBike.cassette.slice(2));
    expect(guess.notes[0].message).toContain('% of its teeth show in the rides, those of the cog of 34 do not.');
  });

  it('says which cogs were asked for and do not show', () => {
    const ride = new MadeRide().pedal(60);
    for (const cog of [5, 6, 7, 6, 5, 4, 3, 2, 1, 2, 3, 4, 5, 6, 7, 6, 5, 4])
      ride.shift(cog).pedal(30).command(8).pedal(3).command(cog).pedal(20);
    const [{ message }] = guessDrivetrain([ride.log()]).notes;
    expect(message).toContain('The cog of 34 was asked for: the chain hardly drove on it, or never reached it');
    expect(guessDrivetrain([log]).notes[0].message).not.toContain('asked for');
  });

  it('says which cogs are made up, of records and of a ladder', () => {
    const two = guessDrivetrain([recording([24, 28, 24].map((teeth, timeS) => ({ timeS, rearTeeth: teeth })))]);
    expect(two.bike.cassette).toEqual([24, 28, 33, 39, 46]);
    expect(two.notes[0].message).toContain('No ride shows 33, 39 and 46: they are made up, to complete a cassette.');
    expect(two.madeUpCogs).toEqual([33, 39, 46]);
    expect(two.notes[0].message).not.toContain('add them');
    expect(guessDrivetrain([log]).notes[0].message).not.toContain('made up');
    expect(guessDrivetrain([log]).madeUpCogs).toEqual([]);

    const middle = new MadeRide().pedal(30).wander(40, 12, [2, 4]).log();
    const ladder = guessDrivetrain([withoutRecords(middle)]);
    const [, seen] = /shows \d+ cogs \(([\d, ]+)\)/.exec(ladder.notes[0].message) ?? [];
    const filledIn = ladder.bike.cassette.filter((teeth) => !seen.split(', ').includes(String(teeth)));
    expect(filledIn.length).toBeGreaterThan(1);
    expect(ladder.madeUpCogs).toEqual(filledIn);
    expect(ladder.notes[0].message).toContain(
      `No ride shows ${filledIn.slice(0, -1).join(', ')} and ${filledIn.at(-1)}: they are made up, to complete a cassette.`,
    );
  });

  it('calls no cog made up that the recorded positions prove, only its teeth not known', () => {
    // the 21, the 24 and the 28 of a cassette with two larger cogs and one smaller, by its positions
    const named = (from: 'largest' | 'smallest') =>
      guessDrivetrain([
        recording(
          [21, 24, 28, 24].map((rearTeeth, timeS) => ({
            timeS,
            rearTeeth,
            rear: [21, 24, 28].indexOf(rearTeeth) * (from === 'largest' ? -1 : 1) + (from === 'largest' ? 5 : 3),
          })),
        ),
      ]);
    const fromLargest = named('largest');
    const [larger, largest] = fromLargest.bike.cassette.slice(-2);
    expect(fromLargest.bike.cassette.slice(0, -2)).toEqual([21, 24, 28]);
    expect(fromLargest.madeUpCogs).toEqual([larger, largest]);
    expect(fromLargest.notes[0].message).toContain(
      `By the recorded positions the cogs written as ${larger} and ${largest} are there, but no ride shows their teeth: count them.`,
    );
    const fromSmallest = named('smallest');
    expect(fromSmallest.madeUpCogs).toEqual(fromSmallest.bike.cassette.slice(0, 2));
    for (const { notes } of [fromLargest, fromSmallest]) expect(notes[0].message).not.toContain('made up');

    // three positions make no cassette: the two beyond them are filled in, that between them is there
    const three = guessDrivetrain([
      recording(
        [
          [24, 3],
          [32, 1],
          [24, 3],
        ].map(([rearTeeth, rear], timeS) => ({ timeS, rearTeeth, rear })),
      ),
    ]);
    const [a, b, , between] = three.bike.cassette;
    expect(three.madeUpCogs).toEqual([a, b, between]);
    expect(three.notes[0].message).toContain(
      `By the recorded positions the cog written as ${between} is there, but no ride shows its teeth: count them. No ride shows ${a} and ${b}: they are made up, to complete a cassette.`,
    );
  });

  it('does not call one state record none', () => {
    const [{ message }] = guessDrivetrain([recording([{ timeS: 0, rearTeeth: 24 }])]).notes;
    expect(message).toMatch(/^Gear records of one cog at most and no clear ladder of ratios/);
    const positions = guessDrivetrain([recording([1, 2].map((rear) => ({ timeS: rear, rear })))]);
    expect(positions.notes[0].message).toMatch(/^Gear records that make no bike and no clear ladder of ratios/);
    expect(guessDrivetrain([madeLog(standing)]).notes[0].message).toMatch(/^No gear records and no clear ladder/);
  });

  it('is never certain: a cog that was not used does not show', () => {
    const byTeeth = {
      ...log,
      gearRecords: { ...log.gearRecords, rearPosition: new Uint8Array(log.gearRecords.timeS.length) },
    };
    const [sure, less, ladder] = [log, byTeeth, withoutRecords(log)].map((one) => guessDrivetrain([one]));
    expect(sure.certainty).toBeLessThan(1);
    expect([sure, less, ladder].map(({ madeUpCogs }) => madeUpCogs)).toEqual([[], [], []]);
    expect(less.certainty).toBeLessThan(0.85);
    for (const { notes } of [sure, less, ladder])
      expect(notes[0].message).toContain('A cog that no ride used cannot show: add it if the bike has one.');
  });

  it('reads the ladder of ratios where there are no records', () => {
    const { bike, certainty } = guessDrivetrain([withoutRecords(log)]);
    expect(bikeSchema.safeParse(bike).success).toBe(true);
    expect(certainty).toBeGreaterThan(0);
    expect(certainty).toBeLessThan(0.9);
    // up to a common scale: every ridden development is one of the bike's
    for (let cog = 0; cog < 9; cog++) {
      const nearest = Math.min(
        ...bike.chainrings.flatMap((ring) =>
          bike.cassette.map((teeth) =>
            Math.abs(Math.log((((bike.rolloutMm ?? 0) / 1000) * ring) / teeth / ride.developmentM(cog))),
          ),
        ),
      );
      expect(nearest, `cog ${cog}`).toBeLessThan(0.02);
    }
  });

  it('says that the drivetrain is unknown where nothing shows it', () => {
    for (const logs of [[], [madeLog(standing)], [withoutRecords(new MadeRide().pedal(30).log())]]) {
      const { certainty, notes } = guessDrivetrain(logs);
      expect(certainty).toBe(0);
      expect(notes.map(({ code }) => code)).toEqual(['bike-unknown']);
    }
  });

  it('trusts records less where speed is in another unit', () => {
    const guess = guessDrivetrain([{ ...log, speedMps: log.speedMps.map((v) => 3.6 * v) }]);
    expect(guess.bike.cassette).toEqual(madeBike.cassette);
    expect(guess.certainty).toBeLessThan(0.5);
  });

  it('trusts records without cadence less', () => {
    const silent = { ...log, cadenceRpm: log.cadenceRpm.map(() => Number.NaN) };
    expect(guessDrivetrain([silent]).certainty).toBeLessThan(0.5);
  });
});
