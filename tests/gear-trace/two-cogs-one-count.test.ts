import { describe, expect, it } from 'vitest';
import { analyseRide } from '../../src/analyse.ts';
import { twoCogsOneCount } from '../../src/gear-trace/disagreement/two-cogs-one-count.ts';
import { guessDrivetrain } from '../../src/gear-trace/guess/guess-drivetrain.ts';
import { MadeRide, madeBike } from './made-ride.ts';
import { namedAs } from './named-as.ts';

const { cassette } = madeBike;

/** To and fro over all cogs, at once each time: a bike in order. */
const inOrder = () => new MadeRide().pedal(30).wander(80, 25, [0, 8]).log();

/** A ride that never asks for the smallest cog, onto which the chain slips six times; the rider has it back with a command to a larger cog. */
function slipsOffTheCog(): MadeRide {
  const ride = new MadeRide().pedal(30).wander(20, 25, [2, 6]);
  for (let n = 0; n < 6; n++) {
    for (const cog of [2, 1]) ride.shift(cog).pedal(24);
    ride.move(0).pedal(25);
    for (const cog of [2, 3]) ride.shift(cog).pedal(24);
  }
  return ride;
}

describe.each([
  { what: 'the smallest cog', named: 13, unnamed: 11 },
  { what: 'a cog in the middle', named: 23, unnamed: 26 },
  { what: 'the largest cog', named: 30, unnamed: 34 },
])('$what, recorded by its neighbour’s tooth count', ({ named, unnamed }) => {
  const log = namedAs(inOrder(), { [unnamed]: named });
  const { trace, events } = analyseRide(log, madeBike);
  const [namedCog, unnamedCog] = [named, unnamed].map((teeth) => cassette.indexOf(teeth));

  it('is said, with both cogs', () => {
    expect(trace.ofOneCount).toMatchObject([{ named: namedCog, unnamed: unnamedCog }]);
    const warning = trace.warnings.find(({ code }) => code === twoCogsOneCount);
    expect(warning?.message).toMatch(new RegExp(`drove \\d+ times on the ${unnamed} while they named the ${named}`));
  });

  it('makes no trouble of shifts to two cogs of one name', () => {
    expect(events.ghostShifts).toEqual([]);
    const nameless = events.shifts.filter(({ fromCog, toCog }) => [fromCog, toCog].includes(namedCog));
    expect(nameless.length).toBeGreaterThan(5);
    expect(new Set(nameless.map(({ unjudgedBecause }) => unjudgedBecause))).toEqual(new Set([twoCogsOneCount]));
    const others = events.shifts.filter((shift) => !nameless.includes(shift));
    expect(others.length).toBeGreaterThan(30);
    expect(new Set(others.map(({ outcome }) => outcome))).toEqual(new Set(['clean']));
  });

  it('gives the guessed bike both cogs', () => {
    expect(guessDrivetrain([log]).bike.cassette).toEqual(cassette);
  });
});

describe('two cogs of one count are not seen', () => {
  it('where each cog has its name', () => {
    const log = namedAs(inOrder());
    expect(analyseRide(log, madeBike).trace.ofOneCount).toEqual([]);
    expect(guessDrivetrain([log]).bike.cassette).toEqual(cassette);
  });

  it('where records hold positions, which part them', () => {
    const log = inOrder();
    const rearTeeth = log.gearRecords.rearTeeth.map((teeth) => (teeth === 26 ? 23 : teeth));
    const { trace } = analyseRide({ ...log, gearRecords: { ...log.gearRecords, rearTeeth } }, madeBike);
    expect(trace.ofOneCount).toEqual([]);
  });

  it('where the chain slips onto a cog that was never asked for, and waits for a command to come back', () => {
    const { trace, events } = analyseRide(namedAs(slipsOffTheCog().log()), madeBike);
    expect(trace.commands.cog.includes(0)).toBe(false);
    expect(events.ghostShifts.filter(({ toCog }) => toCog === 0).length).toBeGreaterThan(3);
    expect(trace.ofOneCount).toEqual([]);
  });

  it('where it did so once or twice, for whatever reason', () => {
    const ride = new MadeRide().pedal(30).wander(30, 25, [1, 6]);
    for (let n = 0; n < 2; n++)
      ride
        .wander(8, 25, [1, 3])
        .move(ride.cog - 1)
        .pedal(25)
        .move(ride.cog + 1);
    expect(analyseRide(namedAs(ride.log()), madeBike).trace.ofOneCount).toEqual([]);
  });
});
