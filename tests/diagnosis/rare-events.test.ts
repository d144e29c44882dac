import { describe, expect, it } from 'vitest';
import { emptySegment } from '../../src/diagnosis/evidence/evidence-table.ts';
import { emptyRates } from '../../src/diagnosis/imagined-bike/pulley-rates.ts';
import { rareEventsLogLikelihood, zonedEvents } from '../../src/diagnosis/likelihood/rare-events.ts';

const COGS = 10;
const HOUR_S = 3600;

/** How much more likely two skips in three hours are at ten times the rate, where gear changes were recorded and where not. */
function tenfold(recorded: boolean): number {
  const segment = emptySegment(COGS, { period: 0, startMs: 0, ride: 0, placed: true });
  segment.pedallingS.fill((3 * HOUR_S) / COGS);
  if (recorded) segment.watchedS.fill((3 * HOUR_S) / COGS);
  segment.skips[4] = 2;
  const at = (perHour: number): number => {
    const rates = emptyRates(COGS, [3], new Uint8Array(2 * COGS));
    rates.skipPerS.fill(perHour / HOUR_S);
    return rareEventsLogLikelihood(segment, zonedEvents(segment), rates);
  };
  return at(0.5) - at(0.05);
}

describe('rareEventsLogLikelihood', () => {
  it('lets skips speak less for a fault where no gear change was recorded, and still speak', () => {
    expect(tenfold(false)).toBeGreaterThan(0.2);
    expect(tenfold(true)).toBeGreaterThan(2 * tenfold(false));
  });

  it('says nothing of a stretch in which nobody pedalled and nothing was seen', () => {
    const segment = emptySegment(COGS, { period: 0, startMs: 0, ride: 0, placed: true });
    const rates = emptyRates(COGS, [3], new Uint8Array(2 * COGS));
    rates.skipPerS.fill(1);
    expect(rareEventsLogLikelihood(segment, zonedEvents(segment), rates)).toBeCloseTo(0, 6);
  });
});
