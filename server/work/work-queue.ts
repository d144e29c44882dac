import { storageFault } from '../data-folder/storage-fault.ts';
import { engineVersion } from '../engine.ts';
import { requeueReports } from '../store/report-store.ts';
import {
  type BikeBacklog,
  bikeBacklogs,
  nextRides,
  requeueStale,
  unplacedRides,
  type WaitingRide,
} from '../store/work-store.ts';
import { analyseNextRide } from './analyse-next-ride.ts';
import { concludeNextBike } from './conclude-next-bike.ts';
import { placeNextRides } from './place-next-rides.ts';
import type { WorkBench } from './work-bench.ts';

/** While a bike's first rides are still being analysed, its report is worked out no more often than this, ms. */
const PARTIAL_REPORT_MS = 3000;
/** Nor does it then take more than one part in so many of the time. */
const PARTIAL_REPORT_SHARE = 20;
/** Nor at all for so few rides that are in turn: they are analysed before it would be of use. */
const FEW_RIDES = 5;
/** After the disk refused a result, the queue rests this long, ms. */
const REST_MS = 10_000;

/** How many things a bike still waits for before its report is up to date. */
export const pendingOf = (backlog: BikeBacklog): number => backlog.queued + (isBehind(backlog) ? 1 : 0);

/** A bike that never had a ride has nothing to report. */
const isBehind = ({ revision, reportRevision, rides }: BikeBacklog): boolean =>
  revision > (reportRevision ?? 0) && (rides > 0 || reportRevision !== null);

/**
 * Sees to it that every ride is placed and analysed and every report is up to date. Holds no list of its own: what is
 * left to do is read from the tables each time, so a server that was killed goes on where it was.
 */
export class WorkQueue {
  readonly #bench: WorkBench;
  readonly #lanes: number;
  /** Rides that are being analysed, with their bikes. */
  readonly #rides = new Map<string, string>();
  readonly #bikes = new Set<string>();
  /** Bikes whose report may be behind: the others need not be looked at. */
  readonly #doubtful = new Set<string>();
  readonly #openUploads = new Set<string>();
  /** When a bike's report may be worked out again while rides still come, as `performance.now` counts: a clock that is set back holds nothing up. */
  readonly #notBefore = new Map<string, number>();
  readonly #running = new Set<Promise<void>>();
  #placing = false;
  #waking = false;
  #resting = false;
  #closed = false;

  constructor(bench: WorkBench, lanes: number) {
    this.#bench = bench;
    this.#lanes = lanes;
  }

  /** Queues what another engine worked out, and begins. */
  start(): void {
    const { sql, log } = this.#bench;
    const stale = sql.transaction(() => {
      requeueReports(sql, engineVersion);
      return requeueStale(sql, engineVersion);
    });
    if (stale > 0) log.info({ rides: stale, engineVersion }, 'rides are analysed again by this engine');
    for (const { bikeId } of bikeBacklogs(sql)) this.#doubtful.add(bikeId);
    this.wake();
  }

  /** Something changed: looks for work in the next turn. */
  wake(): void {
    if (this.#waking || this.#closed) return;
    this.#waking = true;
    setImmediate(() => {
      this.#waking = false;
      this.#fill();
    });
  }

  /** The rides of an upload are not placed before all of them are in. */
  openUpload(id: string): void {
    this.#openUploads.add(id);
  }

  closeUpload(id: string): void {
    this.#openUploads.delete(id);
    this.wake();
  }

  isAnalysing(rideId: string): boolean {
    return this.#rides.has(rideId);
  }

  /** Tells listeners how far a bike is, and looks for work. */
  tellBike(bikeId: string): void {
    const backlog = bikeBacklogs(this.#bench.sql, bikeId)[0];
    if (backlog) {
      this.#doubtful.add(bikeId);
      this.#bench.hub.tell({ type: 'bike', bikeId, pending: pendingOf(backlog) });
    }
    this.wake();
  }

  /** Takes up no more work and waits for what is under way to end or to be stopped with the pool. */
  async close(): Promise<void> {
    this.#closed = true;
    await Promise.allSettled(this.#running);
  }

  #fill(): void {
    while (!this.#closed && this.#running.size < this.#lanes && !this.#resting) {
      const work = this.#next();
      if (!work) return;
      const run = work()
        .catch((error) => this.#rest(error))
        .finally(() => {
          this.#running.delete(run);
          this.wake();
        });
      this.#running.add(run);
    }
  }

  #next(): (() => Promise<void>) | null {
    return this.#nextReport() ?? this.#nextPlacement() ?? this.#nextRide();
  }

  #nextReport(): (() => Promise<void>) | null {
    const due = this.#dueReport();
    if (!due) return null;
    const { bikeId } = due;
    this.#bikes.add(bikeId);
    return async () => {
      const start = performance.now();
      try {
        await concludeNextBike(this.#bench, due);
      } finally {
        const took = performance.now() - start;
        this.#notBefore.set(bikeId, performance.now() + Math.max(PARTIAL_REPORT_MS, PARTIAL_REPORT_SHARE * took));
        this.#bikes.delete(bikeId);
      }
      this.tellBike(bikeId);
    };
  }

  #dueReport(): BikeBacklog | null {
    for (const bikeId of this.#doubtful) {
      const backlog = bikeBacklogs(this.#bench.sql, bikeId)[0];
      if (backlog && this.#isDue(backlog)) return backlog;
      if (!backlog || !isBehind(backlog)) this.#doubtful.delete(bikeId);
    }
    return null;
  }

  /** A report is due when nothing is left to analyse; meanwhile now and then, but never before a ride is, or while rides are analysed again. */
  #isDue(backlog: BikeBacklog): boolean {
    if (!isBehind(backlog) || this.#bikes.has(backlog.bikeId)) return false;
    if (backlog.queued === 0) return true;
    if (backlog.queued === backlog.rides || this.#isSoonDone(backlog)) return false;
    return backlog.again === 0 && performance.now() >= (this.#notBefore.get(backlog.bikeId) ?? 0);
  }

  /** Whether few rides of a bike are left and it is their turn: those that wait behind other bikes' may wait for long. */
  #isSoonDone({ bikeId, queued }: BikeBacklog): boolean {
    if (queued > FEW_RIDES) return false;
    return [...this.#rides.values()].includes(bikeId) || this.#rideInTurn()?.bikeId === bikeId;
  }

  #rideInTurn(): WaitingRide | undefined {
    return nextRides(this.#bench.sql, new Set(this.#rides.keys()), 1)[0];
  }

  #nextPlacement(): (() => Promise<void>) | null {
    if (this.#placing) return null;
    const unplaced = unplacedRides(this.#bench.sql).filter(
      ({ upload_id }) => upload_id === null || !this.#openUploads.has(upload_id),
    );
    if (unplaced.length === 0) return null;
    this.#placing = true;
    return async () => {
      try {
        const { bikeId } = await placeNextRides(this.#bench, unplaced);
        if (bikeId) this.tellBike(bikeId);
      } finally {
        this.#placing = false;
      }
    };
  }

  #nextRide(): (() => Promise<void>) | null {
    const ride = this.#rideInTurn();
    if (!ride) return null;
    this.#rides.set(ride.id, ride.bikeId);
    return async () => {
      try {
        await analyseNextRide(this.#bench, ride);
      } finally {
        this.#rides.delete(ride.id);
      }
      this.tellBike(ride.bikeId);
    };
  }

  /** The result of some work could not be kept. It is still to be done; another try at once would only fail again. */
  #rest(error: unknown): void {
    const { log } = this.#bench;
    const fault = storageFault(error);
    if (fault) log.error({ code: fault }, 'the disk takes no results; trying again soon');
    else log.error({ err: error }, 'work broke off');
    this.#resting = true;
    setTimeout(() => {
      this.#resting = false;
      this.wake();
    }, REST_MS).unref();
  }
}
