import { createHash } from 'node:crypto';
import { closeSync, fsyncSync, openSync, readFileSync, writeSync } from 'node:fs';
import { recordedTeeth } from '../../src/gear-trace/commands/recorded-gears.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { rideToCome } from '../../src/ride-log/still-to-come.ts';
import { unpackGzip } from '../../src/ride-log/unpack-gzip.ts';
import { storageFault } from '../data-folder/storage-fault.ts';
import { dropPositions } from '../positions/drop-positions.ts';
import { rideFault } from './ride-fault.ts';
import type { IntakeAnswer, IntakeTask } from './tasks.ts';

const sha256 = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

/**
 * Reads a file that came in and writes what will be kept of it, unpacked and flushed to the disk. A file that is no ride is refused
 * here, by name and with the reason, before anything is stored.
 */
export function intakeRide(task: IntakeTask): IntakeAnswer {
  const sent = readFileSync(task.path);
  const sentSha256 = sha256(sent);
  try {
    const bytes = unpackGzip(task.file, sent);
    const kept = task.keepPositions ? keepAll(task.file, bytes) : dropPositions(task.file, bytes);
    writeFlushed(task.keptPath, kept.bytes);
    const { log } = kept;
    const changed = {
      code: 'positions-dropped',
      message: 'Some values changed a little when the positions were taken out of the file.',
    };
    return {
      fault: null,
      ride: {
        sha256: sentSha256,
        keptSha256: sha256(kept.bytes),
        bytes: sent.length,
        keptBytes: kept.bytes.length,
        format: log.format,
        positions: kept.positions,
        startMs: Math.round(log.startMs),
        durationS: log.timeS.length > 0 ? log.timeS[log.timeS.length - 1] - log.timeS[0] : 0,
        recordedTeeth: recordedTeeth(log.gearRecords),
        warnings: [...kept.warnings, kept.same ? null : changed, rideToCome(log, Date.now())].filter(
          (one) => one !== null,
        ),
      },
    };
  } catch (error) {
    const disk = storageFault(error);
    if (disk)
      return {
        fault: { code: disk, message: `${task.file}: could not be written to the disk. Nothing of it was kept.` },
      };
    return { fault: rideFault(error) };
  }
}

function keepAll(file: string, bytes: Uint8Array) {
  const log = readRideLog(file, bytes);
  return { bytes, log, warnings: log.warnings, positions: 'kept' as const, same: true };
}

function writeFlushed(path: string, bytes: Uint8Array): void {
  const handle = openSync(path, 'wx', 0o600);
  try {
    for (let at = 0; at < bytes.length; ) at += writeSync(handle, bytes, at);
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
