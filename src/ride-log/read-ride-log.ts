import { decodeCsv } from './csv/decode-csv.ts';
import { finishRide } from './finish-ride.ts';
import { decodeFit } from './fit/decode-fit.ts';
import { keepWithin } from './keep-within.ts';
import { rideFormat } from './ride-format.ts';
import type { RideLog } from './ride-log.ts';
import { decodeXml } from './xml/decode-xml.ts';

/**
 * Reads one ride of any format; the format is told by content. `file` is only a name for messages.
 *
 * Every input ends in a ride or a `FileError`, in bounded time and memory. What each fault leads to stands in the table
 * of outcomes in DEVELOPERS.md.
 */
export function readRideLog(file: string, bytes: Uint8Array): RideLog {
  switch (rideFormat(file, bytes)) {
    case 'fit': {
      const { draft, fileTypes, sessions } = decodeFit(file, bytes);
      return finishRide(keepWithin(draft, sessions.riding(file)), fileTypes);
    }
    case 'csv':
      return finishRide(decodeCsv(file, bytes));
    case 'xml': {
      const { draft, fileTypes } = decodeXml(file, bytes);
      return finishRide(draft, fileTypes);
    }
  }
}
