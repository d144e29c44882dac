import type { EvidenceSegment } from '../evidence/evidence-table.ts';
import type { PulleyRates } from '../imagined-bike/pulley-rates.ts';

/** Unasked shifts and skips are rare: they are counted by zone, the two end cogs alone, the others in two halves. */
const ZONE_COUNT = 4;
function zoneOf(cog: number, cassetteLength: number): number {
  if (cog === 0) return 0;
  if (cog === cassetteLength - 1) return 3;
  return cog < cassetteLength / 2 ? 1 : 2;
}

/** Moves of the chain that are counted apart: by the way the last shift was asked for and the way the chain went, in the order of `moveCell`. */
const MOVES = 4;

/** Unasked shifts (by move) and skips of a segment by zone, and the zone of each cog. */
export interface ZonedEvents {
  readonly zones: Int8Array;
  readonly ghosts: Float64Array;
  readonly skips: Float64Array;
}

/** Counts a segment's unasked shifts and skips by zone. */
export function zonedEvents(segment: EvidenceSegment): ZonedEvents {
  const size = segment.pedallingS.length;
  const zones = Int8Array.from({ length: size }, (_, cog) => zoneOf(cog, size));
  const ghosts = new Float64Array(MOVES * ZONE_COUNT);
  const skips = new Float64Array(ZONE_COUNT);
  for (let cog = 0; cog < size; cog++) {
    for (let move = 0; move < MOVES; move++)
      ghosts[move * ZONE_COUNT + zones[cog]] += segment.ghosts[move * size + cog];
    skips[zones[cog]] += segment.skips[cog];
  }
  return { zones, ghosts, skips };
}

/** Log likelihood of a count that clumps (negative binomial, constant terms left out). `shape` small: heavy tail. */
function clumpedCount(count: number, mean: number, shape: number): number {
  const none = -shape * Math.log1p(mean / shape);
  return count === 0 ? none : count * Math.log(mean / (mean + shape)) + none;
}

/** How unasked shifts and skips clump, and dropped chains: small shapes have a heavy tail (assumptions of ours, 0.5 to 2). */
const EVENT_SHAPE = 0.8;
const DROP_SHAPE = 1;
/**
 * Skips that a log fakes where it holds no gear changes: a quick shift there and back looks like one. A second of pedalling (assumption of ours,
 * 0.05 to 0.5 an hour).
 */
const FAKED_UNRECORDED_PER_S = 0.2 / 3600;
/** Share of the skips that are seen where a log holds no gear changes, of those seen where it does (assumption of ours, 0.1 to 0.6). */
const SEEN_UNRECORDED = 0.3;
/** Keeps the mean of what cannot happen above 0. */
const HARDLY_EVER = 1e-9;

const SKIPS_FROM = MOVES * ZONE_COUNT;
const zoneMeans = new Float64Array(SKIPS_FROM + ZONE_COUNT);

/** Log likelihood of the unasked shifts, skips and dropped chains of a segment, constant terms left out. */
export function rareEventsLogLikelihood(
  { pedallingS, watchedS, drops, dropChances }: EvidenceSegment,
  { zones, ghosts, skips }: ZonedEvents,
  rates: PulleyRates,
): number {
  const size = pedallingS.length;
  zoneMeans.fill(HARDLY_EVER);
  for (let cog = 0; cog < size; cog++) {
    for (let move = 0; move < MOVES; move++) {
      const afterS = watchedS[move < MOVES / 2 ? cog : size + cog];
      zoneMeans[move * ZONE_COUNT + zones[cog]] += rates.ghostPerS[move * size + cog] * afterS;
    }
    const recordedS = watchedS[cog] + watchedS[size + cog];
    const unrecordedS = pedallingS[cog] - recordedS;
    zoneMeans[SKIPS_FROM + zones[cog]] +=
      rates.skipPerS[cog] * (recordedS + SEEN_UNRECORDED * unrecordedS) + FAKED_UNRECORDED_PER_S * unrecordedS;
  }
  let total = 0;
  for (let i = 0; i < SKIPS_FROM; i++) total += clumpedCount(ghosts[i], zoneMeans[i], EVENT_SHAPE);
  for (let i = 0; i < ZONE_COUNT; i++) total += clumpedCount(skips[i], zoneMeans[SKIPS_FROM + i], EVENT_SHAPE);
  for (let end = 0; end < 3; end++) {
    const chances = Math.max(dropChances[end], drops[end]);
    total += clumpedCount(drops[end], rates.drop[end] * chances + HARDLY_EVER, DROP_SHAPE);
  }
  return total;
}
