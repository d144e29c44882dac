import { describe, expect, it } from 'vitest';
import type { CassetteEnd } from '../../src/adjustments/end-cog-count.ts';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { Diagnosis } from '../../src/diagnosis/diagnosis.ts';
import type { Outcome } from '../../src/shifts/ride-events.ts';
import { lost, type Turn, turned } from './now/adjusted-bikes.ts';
import { cableBike, healthyPattern, type PatternRide, patternRide } from './pattern-ride.ts';

type End = readonly [side: CassetteEnd, screw: 'low-limit' | 'high-limit', cog: number];
const ends: readonly End[] = [
  ['past-largest', 'low-limit', 11],
  ['past-smallest', 'high-limit', 0],
];

/** Every shift onto an end cog goes this way, all others as on a bike in order. */
const allOnto =
  (end: number, outcome: Exclude<Outcome, 'clean' | 'unjudged' | 'overshot'>): PatternRide['pattern'] =>
  (cog) =>
    cog === end ? { [outcome]: 1 } : healthyPattern(cog);

/** A chain lost past an end once, something done about it, and then two rides on which the cog is hardly reached or not at all. */
function verdict([end, , cog]: End, outcome: 'late' | 'missed', turn: Turn): Diagnosis {
  const loses = patternRide({ pattern: healthyPattern, drops: lost(end, 1) });
  const since = [2, 4].map((day) => patternRide({ day, pattern: allOnto(cog, outcome) }));
  return diagnose({ bike: cableBike, rides: [loses, ...since], adjustments: [turned(1, turn)] });
}

describe.each(ends)('a chain lost %s, and the %s turned in as advised', (side, screw, cog) => {
  const end = [side, screw, cog] as const;

  it.each(['late', 'missed'] as const)('is opened by a look alone where all shifts since were %s', (outcome) => {
    const { causes, suggestion } = verdict(end, outcome, [screw, 0.5]);
    expect(causes[0].cause).toBe(`${screw}-tight`);
    const said = `${suggestion.action} ${suggestion.start}`.split(/(?<=\.) /);
    const opening = said.filter((sentence) => /anticlockwise|\bout\b/.test(sentence));
    expect(opening.length).toBeGreaterThan(0);
    for (const sentence of opening) expect(sentence).toMatch(/^Only where it (does not get that far|stops short)/);
    expect(suggestion.steps.join(' ')).toMatch(/so look on a stand\..*Only where/);
    expect(suggestion.verify).toMatch(/^On a stand make .* keep off that cog on any ride/);
    // the look decides which way
    expect(suggestion.sense).toBeNull();
  });

  it('is not proved to hold by shifts that never reached its cog', () => {
    expect(verdict(end, 'missed', [screw, 0.5]).now.keepOff).toEqual([side]);
    expect(verdict(end, 'late', [screw, 0.5]).now.keepOff).toEqual([]);
  });
});

it('says that nobody got there, where the limit in question lets the chain past and no shift since reached its cog', () => {
  const loses = patternRide({ pattern: healthyPattern, drops: lost('past-largest', 6) });
  const made = patternRide({ day: 2, pattern: allOnto(11, 'missed') });
  // two of them: too few to be a fault of their own
  let left = 2;
  const shifts = made.events.shifts.filter(({ toCog }) => toCog !== 11 || left-- > 0);
  const since = { ...made, events: { ...made.events, shifts } };
  const found = diagnose({ bike: cableBike, rides: [loses, since], adjustments: [turned(1, ['low-limit', 0.5])] });
  expect(found.now).toMatchObject({ fault: 'low-limit-loose', setting: 'untested', keepOff: ['past-largest'] });
  expect(found.suggestion.action).toMatch(/it was asked for twice since, but the chain did not get there/);
});
