import { bikeRolloutMm } from '../../src/drivetrain/bike-rollout.ts';
import type { RecordedTeeth } from '../../src/gear-trace/commands/recorded-gears.ts';
import { ringsUnclear } from '../../src/gear-trace/guess/unrecorded-rings.ts';
import { engineVersion } from '../engine.ts';
import type { RawStore } from '../raw/raw-store.ts';
import { findBike, improveGuess, insertBike, listBikes, touchBike } from '../store/bike-store.ts';
import { listSummaries } from '../store/report-store.ts';
import { failPlacement, listRecordedTeeth, listRides, placeRide } from '../store/ride-store.ts';
import type { Sql } from '../store/sql.ts';
import { requeueStale, unplacedRides } from '../store/work-store.ts';
import { bikeOfCopies } from './compare-with-others.ts';
import { bikeUnclear } from './place-rides.ts';
import type { CandidateBike, GuessedBike, PlaceAnswer, PlaceTask } from './tasks.ts';
import type { WorkBench } from './work-bench.ts';
import { fileMissing, workFault } from './work-fault.ts';
import { WorkFailed } from './worker-pool.ts';

type Unplaced = ReturnType<typeof unplacedRides>;

/** A drivetrain is guessed from so many rides together, the longest there are: tracing more takes long and adds little. */
const MOST_FOR_ONE_GUESS = 4;

/**
 * Places the first of these rides: one ride on the bike it fits, or all rides of an upload that asked for a new bike.
 * Throws only where that cannot be kept.
 */
export async function placeNextRides(bench: WorkBench, unplaced: Unplaced): Promise<{ bikeId: string | null }> {
  const { sql, raw, hub, log } = bench;
  const [first] = unplaced;
  const together =
    first.placement === 'new' ? unplaced.filter(({ upload_id }) => upload_id === first.upload_id) : [first];
  const start = performance.now();
  const lost = together.find(({ kept_sha256 }) => !raw.has(kept_sha256));
  const answer = lost ? { fault: fileMissing(lost.file) } : await findBikeFor(bench, together);
  if (!answer) return { bikeId: null };
  const { kept, bikeId } = sql.transaction(() => keep(sql, lost ? [lost] : together, answer));
  log.info({ job: 'place', rides: kept.length, bikeId, ms: Math.round(performance.now() - start) }, 'job done');
  for (const { id, upload_id } of kept)
    hub.tell({ type: 'ride', rideId: id, bikeId, uploadId: upload_id, status: bikeId ? 'queued' : 'failed' });
  return { bikeId };
}

/** Null where the server is stopping. A copy of a ride that is there goes to its bike: there it is told and does not count twice. */
async function findBikeFor(bench: WorkBench, together: Unplaced): Promise<PlaceAnswer | null> {
  const [first] = together;
  try {
    const known =
      first.placement === 'new' ? null : await bikeOfCopies(bench, { ...first, keptSha256: first.kept_sha256 });
    return known === null ? await bench.pool.run('place', task(bench, together)) : placedOn(known);
  } catch (error) {
    if (!(error instanceof WorkFailed)) throw error;
    const fault = workFault(first.file, error);
    return fault && { fault };
  }
}

const placedOn = (bikeId: string): PlaceAnswer => ({ fault: null, bikeId, guess: null });

const task = (bench: WorkBench, together: Unplaced): PlaceTask => ({
  rides: [...together]
    .sort((a, b) => b.duration_s - a.duration_s)
    .slice(0, MOST_FOR_ONE_GUESS)
    .map(({ file, kept_sha256 }) => ({ file, path: bench.raw.path(kept_sha256) })),
  bikes: together[0].placement === 'new' ? [] : candidates(bench),
});

/** Bikes that a ride may be of: not the invented ones. */
function candidates({ sql, raw }: WorkBench): CandidateBike[] {
  const summaries = listSummaries(sql);
  const recorded = listRecordedTeeth(sql);
  return listBikes(sql)
    .filter(({ sample }) => !sample)
    .map(({ id, bike, source, notes }) => {
      const written = bikeRolloutMm(bike);
      const kept = summaries.get(id)?.summary;
      const measured = kept ? (JSON.parse(kept) as { rolloutMm?: number | null } | null)?.rolloutMm : null;
      const guessed = source === 'guessed';
      return {
        id,
        bike,
        guessed,
        unclear: notes.some(({ code }) => code === bikeUnclear),
        ringsUnclear: ringsUnclear(notes),
        recorded: teethNamedIn(recorded.get(id) ?? []),
        rolloutMm: Number.isNaN(written) ? (measured ?? null) : written,
        rides: guessed ? longestRides(sql, id, raw) : [],
      };
    });
}

/** The tooth counts that any of a bike's rides names. `texts`: `RecordedTeeth` as JSON. */
function teethNamedIn(texts: readonly string[]): RecordedTeeth {
  const all = texts.map((text) => JSON.parse(text) as RecordedTeeth);
  const union = (end: keyof RecordedTeeth): number[] => [...new Set(all.flatMap((teeth) => teeth[end]))];
  return { rear: union('rear'), front: union('front') };
}

const longestRides = (sql: Sql, bikeId: string, raw: RawStore): CandidateBike['rides'] =>
  [...listRides(sql, { bikeId })]
    .sort((a, b) => b.durationS - a.durationS)
    .slice(0, MOST_FOR_ONE_GUESS - 1)
    .map(({ file, keptSha256 }) => ({ file, path: raw.path(keptSha256) }));

/** The rides that were placed, or failed where `bikeId` is null. One that its rider moved or removed since is left as it is. */
function keep(sql: Sql, together: Unplaced, answer: PlaceAnswer): { kept: Unplaced; bikeId: string | null } {
  const waiting = new Set(unplacedRides(sql).map(({ id }) => id));
  const rides = together.filter(({ id }) => waiting.has(id));
  if (answer.fault) {
    for (const { id } of rides) failPlacement(sql, id, answer.fault, engineVersion);
    return { kept: rides, bikeId: null };
  }
  // The chosen bike may have been removed since: the rides then wait for the next look.
  const gone = answer.bikeId !== null && !findBike(sql, answer.bikeId);
  if (gone || rides.length === 0) return { kept: [], bikeId: null };
  const bikeId = answer.bikeId ?? insertGuessed(sql, answer.guess);
  for (const { id } of rides) placeRide(sql, id, bikeId);
  if (answer.bikeId !== null && answer.guess) {
    improveGuess(sql, bikeId, answer.guess);
    requeueStale(sql, engineVersion);
  }
  touchBike(sql, bikeId);
  return { kept: rides, bikeId };
}

/** Stores a guessed bike under a name that no other bike has: its rider will give it a better one. */
function insertGuessed(sql: Sql, { bike, notes, certainty }: GuessedBike): string {
  const taken = new Set(listBikes(sql).map((other) => other.bike.name));
  let name = bike.name;
  for (let number = 2; taken.has(name); number++) name = `${bike.name} (${number})`;
  return insertBike(sql, { ...bike, name }, 'guessed', { notes, certainty });
}
