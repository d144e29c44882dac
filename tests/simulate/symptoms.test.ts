import { beforeAll, describe, expect, it } from 'vitest';
import { type FaultCause, faultCauses } from '../../src/simulate/setting/fault-causes.ts';
import { simulateRides } from '../../src/simulate/simulate-rides.ts';

/** What went wrong in the judged shifts of some group of cogs and one direction. */
interface Group {
  judged: number;
  late: number;
  missed: number;
  overshot: number;
}

interface Symptoms {
  readonly larger: Record<'all' | 'small' | 'middle' | 'big' | 'largest', Group>;
  readonly smaller: Record<'all' | 'big' | 'middle' | 'small' | 'smallest', Group>;
  ghostsToLarger: number;
  ghostsToSmaller: number;
  pastLargest: number;
  pastSmallest: number;
  skips: number;
  unjudged: number;
  shifts: number;
}

const group = (): Group => ({ judged: 0, late: 0, missed: 0, overshot: 0 });
const trouble = ({ judged, late, missed, overshot }: Group): number => (late + missed + overshot) / judged;

/** Rides of several bikes, riders and devices, an hour and a half each, with the fault severe. */
function symptomsOf(cause: FaultCause): Symptoms {
  const sum: Symptoms = {
    larger: { all: group(), small: group(), middle: group(), big: group(), largest: group() },
    smaller: { all: group(), big: group(), middle: group(), small: group(), smallest: group() },
    ghostsToLarger: 0,
    ghostsToSmaller: 0,
    pastLargest: 0,
    pastSmallest: 0,
    skips: 0,
    unjudged: 0,
    shifts: 0,
  };
  for (let seed = 1; seed <= 6; seed++)
    for (const { truth } of simulateRides({ cause, seed, severity: 'severe', durationS: 5400, formats: [] })) {
      const last = truth.bike.cassette.length - 1;
      for (const shift of truth.shifts) {
        sum.shifts++;
        if (shift.outcome === 'unjudged') {
          sum.unjudged++;
          continue;
        }
        const cog = truth.bike.cassette.indexOf(shift.toTeeth);
        const zone = cog <= 3 ? 'small' : cog <= 7 ? 'middle' : 'big';
        const inward = shift.direction === 'to-larger';
        const groups = inward
          ? [sum.larger.all, cog === last ? sum.larger.largest : sum.larger[zone]]
          : [sum.smaller.all, cog === 0 ? sum.smaller.smallest : sum.smaller[zone]];
        for (const one of groups) {
          one.judged++;
          if (shift.outcome !== 'clean') one[shift.outcome]++;
        }
      }
      for (const ghost of truth.ghostShifts) {
        if (ghost.towardsCommand) continue;
        if (ghost.toTeeth > ghost.fromTeeth) sum.ghostsToLarger++;
        else sum.ghostsToSmaller++;
      }
      for (const drop of truth.chainDrops) {
        if (drop.side === 'past-largest') sum.pastLargest++;
        if (drop.side === 'past-smallest') sum.pastSmallest++;
      }
      sum.skips += truth.skips.length;
    }
  return sum;
}

/** Common practice in the trade, no single source. Groups are compared, figures are not matched. */
describe('where each fault shows', () => {
  const seen = {} as Record<FaultCause, Symptoms>;
  beforeAll(() => {
    for (const cause of faultCauses) seen[cause] = symptomsOf(cause);
  });

  it('no fault: nearly all clean, hardly any missed, no ghost, no drop, no skip; a fifth to a third unjudged', () => {
    const { larger, smaller, ...rest } = seen['no-fault'];
    expect(trouble(larger.all)).toBeLessThan(0.015);
    expect(trouble(smaller.all)).toBeLessThan(0.015);
    expect((larger.all.missed + smaller.all.missed) / (larger.all.judged + smaller.all.judged)).toBeLessThan(0.003);
    expect(rest.ghostsToLarger + rest.ghostsToSmaller).toBe(0);
    expect(rest.pastLargest + rest.pastSmallest + rest.skips).toBe(0);
    expect(rest.unjudged / rest.shifts).toBeGreaterThan(0.15);
    expect(rest.unjudged / rest.shifts).toBeLessThan(0.4);
    expect(rest.shifts / 9).toBeGreaterThan(20);
    expect(rest.shifts / 9).toBeLessThan(250);
  });

  it('tension too low: to larger over the whole cassette, ghosts to smaller', () => {
    const { larger, smaller, ghostsToLarger, ghostsToSmaller } = seen['cable-tension-low'];
    for (const zone of ['small', 'middle', 'big'] as const) expect(trouble(larger[zone])).toBeGreaterThan(0.25);
    expect(trouble(smaller.all)).toBeLessThan(0.05);
    expect(ghostsToSmaller).toBeGreaterThan(2 * ghostsToLarger + 2);
  });

  it('tension too high: to smaller over the whole cassette, ghosts to larger', () => {
    const { larger, smaller, ghostsToLarger, ghostsToSmaller } = seen['cable-tension-high'];
    for (const zone of ['small', 'middle', 'big'] as const) expect(trouble(smaller[zone])).toBeGreaterThan(0.15);
    expect(trouble(larger.all)).toBeLessThan(0.05);
    expect(ghostsToLarger).toBeGreaterThan(2 * ghostsToSmaller + 2);
  });

  it('limits: only the end cog', () => {
    const inner = ({ larger, smaller }: Symptoms): number =>
      Math.max(trouble(larger.small), trouble(larger.middle), trouble(smaller.small), trouble(smaller.middle));
    for (const cause of ['low-limit-tight', 'low-limit-loose', 'high-limit-tight', 'high-limit-loose'] as const)
      expect(inner(seen[cause])).toBeLessThan(0.03);
    expect(trouble(seen['low-limit-tight'].larger.largest)).toBeGreaterThan(0.3);
    expect(trouble(seen['high-limit-tight'].smaller.smallest)).toBeGreaterThan(0.2);
    expect(seen['low-limit-loose'].pastLargest).toBeGreaterThan(2);
    expect(seen['low-limit-loose'].pastSmallest).toBe(0);
    expect(seen['high-limit-loose'].pastSmallest).toBeGreaterThan(5);
    expect(seen['high-limit-loose'].pastLargest).toBe(0);
  });

  it('pulley gap too small: the few largest cogs, to larger, late rather than missed', () => {
    const { larger, smaller } = seen['pulley-gap-small'];
    expect(trouble(larger.largest)).toBeGreaterThan(trouble(larger.middle) + 0.3);
    expect(trouble(larger.big)).toBeGreaterThan(trouble(larger.middle) + 0.1);
    expect(trouble(larger.small)).toBeLessThan(0.05);
    expect(trouble(smaller.all)).toBeLessThan(0.02);
    expect(larger.all.late).toBeGreaterThan(larger.all.missed);
  });

  it('pulley gap too large: slow both ways over the whole cassette, few outright misses', () => {
    const { larger, smaller } = seen['pulley-gap-large'];
    for (const part of [larger.small, larger.middle, larger.big, smaller.middle, smaller.small])
      expect(trouble(part)).toBeGreaterThan(0.12);
    expect(larger.all.missed + smaller.all.missed).toBeLessThan(0.15 * (larger.all.late + smaller.all.late));
  });

  it('hanger bent: both ways, at the ends, the middle spared', () => {
    const { larger, smaller } = seen['hanger-bent'];
    const ends = trouble(larger.small) + trouble(larger.big);
    expect(ends).toBeGreaterThan(4 * trouble(larger.middle));
    expect(trouble(smaller.big) + trouble(smaller.small)).toBeGreaterThan(4 * trouble(smaller.middle));
    expect(trouble(larger.all)).toBeGreaterThan(0.05);
    expect(trouble(smaller.all)).toBeGreaterThan(0.02);
  });

  it('friction: slow to smaller, worst where the spring is weakest, mild the other way', () => {
    const { larger, smaller } = seen['cable-friction'];
    expect(trouble(smaller.all)).toBeGreaterThan(0.2);
    expect(trouble(larger.all)).toBeLessThan(0.2 * trouble(smaller.all));
    expect(trouble(smaller.small)).toBeGreaterThan(2 * trouble(smaller.big));
  });

  it('worn chain and cogs: skips, shifts themselves fine', () => {
    const { larger, smaller, skips } = seen['worn-drivetrain'];
    expect(skips).toBeGreaterThan(20);
    expect(trouble(larger.all)).toBeLessThan(0.015);
    expect(trouble(smaller.all)).toBeLessThan(0.015);
    for (const cause of faultCauses) if (cause !== 'worn-drivetrain') expect(seen[cause].skips).toBeLessThan(5);
  });
});
