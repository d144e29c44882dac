import { counted } from '../../numeric/counted.ts';
import { PathLength } from '../path-length.ts';
import { RideDraft } from '../ride-draft.ts';
import { CleanFit } from './clean-fit.ts';
import { CompressedSpeedDistance } from './compressed-speed-distance.ts';
import { FitFilter } from './fit-filter.ts';
import { type FitMessage, fitMessages, fitTimeMs } from './fit-messages.ts';
import { type FitFrameFault, fitSegments } from './fit-segments.ts';
import { FitSessions } from './fit-sessions.ts';
import { FitSpeedSource } from './fit-speed-source.ts';
import { knownGear, unpackGearWord } from './gear-word.ts';
import { walkFitRecords } from './walk-fit-records.ts';

const value = (number: unknown): number => (typeof number === 'number' ? number : NaN);
const INDOOR = /indoor|spin|trainer/;

/** One FIT file, read. `fileTypes`: what its segments call themselves, for the message of a file without records. */
export interface DecodedFit {
  readonly draft: RideDraft;
  readonly fileTypes: readonly string[];
  readonly sessions: FitSessions;
}

/**
 * Reads the segments of a FIT file into a draft. What is whole is kept, whatever stands behind it; the draft's warnings
 * say what was lost. Of several sports all records are in it. Throws `too-many-records`, nothing else.
 */
export function decodeFit(file: string, bytes: Uint8Array): DecodedFit {
  const reader = new FitReader(file);
  return reader.read(bytes);
}

class FitReader {
  readonly #draft: RideDraft;
  readonly #sessions = new FitSessions();
  readonly #source = new FitSpeedSource();
  readonly #filter = new FitFilter();
  readonly #packed = new CompressedSpeedDistance();
  readonly #path = new PathLength();
  readonly #fileTypes: string[] = [];
  #stoppedMs = NaN;

  constructor(file: string) {
    this.#draft = new RideDraft(file, 'fit');
  }

  read(bytes: Uint8Array): DecodedFit {
    const faults = new Map<FitFrameFault | 'bad-record', number>();
    const fault = (name: FitFrameFault | 'bad-record'): unknown => faults.set(name, (faults.get(name) ?? 0) + 1);
    let lostBytes = 0;
    for (const segment of fitSegments(bytes)) {
      for (const name of segment.faults) fault(name);
      if (segment.end <= segment.start) continue;
      const clean = new CleanFit(bytes, (decoded) => this.#take(fitMessages(decoded)));
      this.#draft.beginRun();
      this.#packed.restart();
      const walk = walkFitRecords(bytes, segment.start, segment.end, (local, definition, at, timeLeftOut, time) => {
        if (this.#filter.lets(bytes, definition, at, timeLeftOut)) clean.add(local, definition, at, timeLeftOut, time);
      });
      clean.flush();
      if (walk.skipped > 0) fault('bad-record');
      lostBytes += walk.skipped;
      // What stands before an open end may be the segment's CRC.
      if (walk.stop === 'end' || (segment.open && segment.end - walk.at <= 2)) continue;
      lostBytes += segment.end - walk.at;
      if (walk.stop === 'bad-record' || !segment.open) fault('bad-record');
    }
    this.#warnOf(faults, lostBytes);
    this.#sessions.describe(this.#draft);
    const indoor = INDOOR.test(this.#draft.subSport ?? '');
    this.#draft.speedSource = this.#source.source(indoor);
    return { draft: this.#draft, fileTypes: this.#fileTypes, sessions: this.#sessions };
  }

  #take(messages: ReturnType<typeof fitMessages>): void {
    for (const { type } of messages.file_ids ?? []) if (type !== undefined) this.#fileTypes.push(String(type));
    for (const session of messages.sessions ?? []) this.#sessions.session(session);
    for (const sport of messages.sports ?? []) this.#sessions.sport(sport);
    for (const device of messages.device_infos ?? []) this.#source.device(device);
    for (const record of messages.records ?? []) this.#record(record);
    for (const event of messages.events ?? []) this.#event(event);
  }

  #record(record: FitMessage): void {
    const packed = record.compressed_speed_distance
      ? this.#packed.unpack(record.compressed_speed_distance)
      : { speedMps: NaN, distanceM: NaN };
    const cadence = record.cadence256 ?? value(record.cadence) + (record.fractional_cadence ?? 0);
    const speedMps = value(record.enhanced_speed ?? record.speed ?? packed.speedMps);
    const pathM = this.#path.to(value(record.position_lat), value(record.position_long));
    this.#source.record(speedMps, !Number.isNaN(pathM));
    this.#draft.add({
      timeMs: fitTimeMs(record.timestamp),
      speedMps,
      cadenceRpm: value(cadence),
      powerW: value(record.power),
      distanceM: value(record.distance ?? packed.distanceM),
      pathM,
    });
  }

  #event(event: FitMessage): void {
    const timeMs = fitTimeMs(event.timestamp);
    if (event.event === 'timer') {
      if (event.event_type === 'start') {
        if (timeMs > this.#stoppedMs) this.#draft.pausesMs.push({ startMs: this.#stoppedMs, endMs: timeMs });
        this.#stoppedMs = NaN;
      } else if (Number.isNaN(this.#stoppedMs)) this.#stoppedMs = timeMs;
    }
    if (event.event !== 'front_gear_change' && event.event !== 'rear_gear_change') return;
    const word = unpackGearWord(event.data ?? 0);
    this.#draft.addGear({
      timeMs,
      rearTeeth: word.rearTeeth || knownGear(event.rear_gear ?? 0),
      frontTeeth: word.frontTeeth || knownGear(event.front_gear ?? 0),
      rearPosition: word.rearPosition || knownGear(event.rear_gear_num ?? 0),
      frontPosition: word.frontPosition || knownGear(event.front_gear_num ?? 0),
    });
  }

  #warnOf(faults: ReadonlyMap<FitFrameFault | 'bad-record', number>, lostBytes: number): void {
    const messages: Record<FitFrameFault | 'bad-record', string> = {
      'crc-wrong':
        'The check sum is wrong: the file was damaged or changed after it was recorded. Values may be wrong.',
      'cut-off': 'The file ends before its header says. What is whole was kept.',
      'size-zero': 'The recording was interrupted before its size was written. What is whole was kept.',
      'size-wrong': 'The size in the header is wrong. What is whole was kept.',
      'stray-bytes': 'Something that is no FIT data stands within or behind the file. It was left out.',
      'bad-record': `Some records are broken: ${counted(lostBytes, 'byte')} could not be read. The rest was kept.`,
    };
    for (const code of faults.keys()) this.#draft.warn(code, messages[code]);
  }
}
