import type { Warning } from '../../src/errors/warning.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { rideFormat } from '../../src/ride-log/ride-format.ts';
import type { RideLog } from '../../src/ride-log/ride-log.ts';
import { dropCsvPositions } from './drop-csv-positions.ts';
import { dropFitPositions } from './drop-fit-positions.ts';
import { dropXmlPositions } from './drop-xml-positions.ts';
import { type PlacelessFile, type PositionTrace, positionTraces } from './position-trace.ts';
import { sameRide } from './same-ride.ts';

/** A ride file with nothing in it of where it was ridden, and the ride that it decodes to. */
export interface PlacelessRide {
  readonly bytes: Uint8Array;
  readonly log: RideLog;
  /** Of the file as it was: what was mended by writing it anew would otherwise go unsaid. */
  readonly warnings: readonly Warning[];
  readonly positions: 'none' | 'dropped';
  /** False where the ride does not read quite as it did with its positions. */
  readonly same: boolean;
}

/**
 * Takes the positions out of a ride file of any format and proves that the ride reads as before, leaving as little as
 * will do (see `PositionTrace`). What is kept is what is analysed, so a report never hangs on positions that are gone.
 *
 * @param file its name, for messages only
 * @throws FileError where the file is no ride that can be read
 */
export function dropPositions(file: string, bytes: Uint8Array): PlacelessRide {
  const before = readRideLog(file, bytes);
  let last: PlacelessRide | undefined;
  for (const trace of positionTraces) {
    const placeless = without(file, bytes, trace);
    const log = readRideLog(file, placeless.bytes);
    const same = sameRide(before, log);
    const positions = placeless.found > 0 ? 'dropped' : 'none';
    last = { bytes: placeless.bytes, log, warnings: before.warnings, positions, same };
    if (same) break;
  }
  return last!;
}

function without(file: string, bytes: Uint8Array, trace: PositionTrace): PlacelessFile {
  switch (rideFormat(file, bytes)) {
    case 'fit':
      return dropFitPositions(bytes, trace);
    case 'csv':
      return dropCsvPositions(file, bytes);
    case 'xml':
      return dropXmlPositions(file, bytes, trace);
  }
}
