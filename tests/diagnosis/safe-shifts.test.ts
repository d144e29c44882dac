import { describe, expect, it } from 'vitest';
import type { CassetteEnd } from '../../src/adjustments/end-cog-count.ts';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { endsAtRisk } from '../../src/diagnosis/check-ride/ends-at-risk.ts';
import { safeShifts } from '../../src/diagnosis/check-ride/safe-shifts.ts';
import type { Setup } from '../../src/diagnosis/imagined-bike/setup.ts';
import type { Particle } from '../../src/diagnosis/posterior/particles.ts';

/** Of ten imagined bikes, so many with one room at both limits, the others in order. */
const bikes = (count: number, clear: number, cause: Particle['cause'] = 'low-limit-tight'): Particle[] =>
  Array.from({ length: 10 }, (_, i) => {
    const room = i < count ? clear : 0.5;
    return { cause, now: { lowClear: room, highClear: room } as Setup } as Particle;
  });

const atRisk = (particles: Particle[], keepOff: CassetteEnd[] = [], named: Cause[] = []): string[] => [
  ...endsAtRisk(particles, new Set(keepOff), named),
];

describe('ends at risk', () => {
  it('are those past which a chain was lost, however unlikely a loose limit is', () => {
    expect(atRisk(bikes(0, 0))).toEqual([]);
    for (const end of ['past-largest', 'past-smallest'] as const) expect(atRisk(bikes(0, 0), [end])).toEqual([end]);
  });

  it('are both where limits may have been opened too far, whatever the cause was', () => {
    expect(atRisk(bikes(2, 2))).toEqual([]);
    expect(atRisk(bikes(3, 2))).toEqual(['past-largest', 'past-smallest']);
    expect(atRisk(bikes(0, 0, 'hanger-bent'))).toEqual(['past-largest']);
  });

  it('are those of which the next step warns, however unlikely', () => {
    expect(atRisk(bikes(0, 0), [], ['cable-friction', 'hanger-bent'])).toEqual(['past-largest']);
    expect(atRisk(bikes(0, 0), [], ['high-limit-loose'])).toEqual(['past-smallest']);
  });
});

describe('safeShifts', () => {
  const safe = (firm: boolean, ...ends: CassetteEnd[]): number[] => {
    const isSafe = safeShifts(9, new Set(ends));
    return Array.from({ length: 9 }, (_, cog) => cog).filter((cog) => isSafe(cog, firm));
  };
  const all = [0, 1, 2, 3, 4, 5, 6, 7, 8];

  it('keeps off an end at risk, and off its neighbour while pressing firmly', () => {
    expect(safe(false)).toEqual(all);
    expect(safe(false, 'past-largest')).toEqual(all.slice(0, -1));
    expect(safe(false, 'past-smallest')).toEqual(all.slice(1));
    expect(safe(true)).toEqual(all.slice(1, -1));
    expect(safe(true, 'past-largest')).toEqual(all.slice(1, -2));
    expect(safe(true, 'past-largest', 'past-smallest')).toEqual(all.slice(2, -2));
  });
});
