import type { Direction } from '../../shifts/ride-events.ts';
import type { Cause } from '../causes.ts';
import { cogCell, LOAD_BINS, outcomes } from '../evidence/evidence-table.ts';
import { emptyRates, fillRates } from '../imagined-bike/pulley-rates.ts';
import type { CauseModel } from '../likelihood/cause-model.ts';
import type { Particle } from './particles.ts';

/** Tells whether shifts onto a cog in a direction are where a cause shows. */
export type Shows = (cog: number, direction: Direction) => boolean;

/** A cause shows on a cog and direction where it is expected to trouble more than this share of the shifts. */
const SHOWS_ABOVE = 0.08;

/**
 * Tells where a cause, as far as it is held likely, showed when it had just come, soft on the pedals: an adjustment that cured it since
 * takes nothing from where it began.
 */
export function whereItShowed(particles: readonly Particle[], { bike, usage }: CauseModel, cause: Cause): Shows {
  const { cassetteLength } = bike;
  const cells = 2 * cassetteLength;
  const own = particles.filter((particle) => particle.cause === cause);
  const rates = emptyRates(cassetteLength, [0], new Uint8Array(cells).fill(1));
  const trouble = new Float64Array(cells);
  for (const { atFirst } of own) {
    fillRates(atFirst, usage, rates);
    for (let cell = 0; cell < cells; cell++)
      trouble[cell] += (1 - rates.outcome[cell * LOAD_BINS * outcomes.length]) / own.length;
  }
  return (cog, direction) => trouble[cogCell(cassetteLength, direction === 'to-larger', cog)] > SHOWS_ABOVE;
}
