import type { RidingEvidence } from '../evidence/build-evidence.ts';
import { LOAD_BINS, outcomes } from '../evidence/evidence-table.ts';
import { emptyRates, fillRates } from '../imagined-bike/pulley-rates.ts';
import type { CauseModel } from '../likelihood/cause-model.ts';
import type { Particle } from '../posterior/particles.ts';

const loads = Array.from({ length: LOAD_BINS }, (_, load) => load);

/** Share of the shifts that an imagined bike would have spoiled on each cog and direction (`cogCell`), ridden as the bike was; 0 where there was none. */
export type ForetoldTrouble = Float64Array;

/** What each imagined bike foretells of the rides that were weighed, with its fault begun and adjusted as it imagines. */
export function foretoldTrouble(model: CauseModel, particles: readonly Particle[]): ForetoldTrouble[] {
  const cells = 2 * model.bike.cassetteLength;
  const rates = emptyRates(model.bike.cassetteLength, loads, new Uint8Array(cells).fill(1));
  const ridden = model.evidence.segments.map((segment) => shiftsByPlace(segment, cells));
  const all = Float64Array.from({ length: cells }, (_, cell) =>
    ridden.reduce((sum, one) => sum + cellSum(one, cell), 0),
  );
  return particles.map((particle) => {
    const trouble = new Float64Array(cells);
    ridden.forEach((shifts, at) => {
      fillRates(model.setupInSegment(particle.atFirst, particle, particle.onset, at), model.usage, rates);
      shifts.forEach((count, place) => {
        if (count > 0) trouble[Math.floor(place / LOAD_BINS)] += count * (1 - rates.outcome[place * outcomes.length]);
      });
    });
    return trouble.map((count, cell) => (all[cell] > 0 ? count / all[cell] : 0));
  });
}

/** Shifts by cog, direction and load, whatever became of them. */
function shiftsByPlace({ shifts }: RidingEvidence['segments'][number], cells: number): Float64Array {
  const places = new Float64Array(cells * LOAD_BINS);
  shifts.forEach((count, i) => {
    places[Math.floor(i / outcomes.length)] += count;
  });
  return places;
}

const cellSum = (places: Float64Array, cell: number): number =>
  places.subarray(cell * LOAD_BINS, (cell + 1) * LOAD_BINS).reduce((sum, count) => sum + count, 0);
