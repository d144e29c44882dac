import { describe, expect, it } from 'vitest';
import { emptySegment } from '../../src/diagnosis/evidence/evidence-table.ts';
import { emptyRates } from '../../src/diagnosis/imagined-bike/pulley-rates.ts';
import { rareEventsLogLikelihood, zonedEvents } from '../../src/diagnosis/likelihood/rare-events.ts';

const COGS = 10;
const HOUR_S = 3600;

/** Log likelihood of two skips in three hours at a rate in skips an hour, where gear changes were recorded and where not. */
function twoSkips(recorded: boolean): (perHour: number) => number {
  const segment = emptySegment(COGS, { period: 0, startMs: 0, ride: 0, placed: true });
  segment.pedallingS.fill((3 * HOUR_S) / COGS);
  if (recorded) segment.watchedS.fill((3 * HOUR_S) / COGS / 2);
  segment.skips[4] = 2;
  return (perHour) => {
    const rates = emptyRates(COGS, [3], new Uint8Array(2 * COGS));
    rates.skipPerS.fill(perHour / HOUR_S);
    return rareEventsLogLikelihood(segment, zonedEvents(segment), rates);
  };
}

/** How much more likely they are at ten times the rate. */
const tenfold = (recorded: boolean): number => twoSkips(recorded)(0.5) - twoSkips(recorded)(0.05);

describe('rareEventsLogLikelihood', () => {
  it('lets skips speak less for a fault where no gear change was recorded, and still speak', () => {
    expect(tenfold(false)).toBeGreaterThan(0.2);
    expect(tenfold(true)).toBeGreaterThan(2 * tenfold(false));
  });

  it('expects to see only a part of the skips there were where no gear change was recorded', () => {
    const likeliest = (recorded: boolean): number => {
      const rates = [0.1, 0.2, 0.5, 1, 2, 5, 10, 20];
      const fits = rates.map((perHour) => twoSkips(recorded)(perHour));
      return rates[fits.indexOf(Math.max(...fits))];
    };
    expect(likeliest(false)).toBeGreaterThan(likeliest(true));
  });

  it('says nothing of a stretch in which nobody pedalled and nothing was seen', () => {
    const segment = emptySegment(COGS, { period: 0, startMs: 0, ride: 0, placed: true });
    const rates = emptyRates(COGS, [3], new Uint8Array(2 * COGS));
    rates.skipPerS.fill(1);
    expect(rareEventsLogLikelihood(segment, zonedEvents(segment), rates)).toBeCloseTo(0, 6);
  });
});
