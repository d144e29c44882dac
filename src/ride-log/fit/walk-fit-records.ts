import { type FitDefinition, readFitDefinition } from './fit-definition.ts';
import { beginsDefinition, hasCompressedTime, isReserved, localMessage } from './fit-record-header.ts';
import { FIT_NO_TIME, FIT_RECORD } from './fit-wanted.ts';
import { areAgreeingRecords, REACH, resumeFitWalk } from './resume-fit-walk.ts';

/** Told of each data record that a ride needs. `at` is its first byte after the header byte. */
export type FitRecordVisitor = (
  local: number,
  definition: FitDefinition,
  at: number,
  /** Bytes that stand before a field are fewer by this much for fields behind a time stamp that was left out. */
  timeLeftOut: boolean,
  /** FIT seconds, from the record or from its compressed header; `FIT_NO_TIME` where it has none. */
  time: number,
) => void;

/** Told of every stretch that was passed, in order: one definition or data record, or, not `whole`, broken bytes before whole ones. */
export type FitStretchVisitor = (from: number, to: number, whole: boolean) => void;

/**
 * Where a walk ended, and why: at `end`, in a record that `end` cuts off, or at a byte that begins no record.
 * `skipped`: bytes of broken records before, behind which whole ones were found again.
 */
export interface FitWalk {
  readonly at: number;
  readonly stop: 'end' | 'cut-off' | 'bad-record';
  readonly skipped: number;
}

/** Times of ride records further apart than this are doubted: the walk may have fallen out of step. */
const DOUBTFUL_S = 86_400;

/**
 * Walks the records of one segment without decoding them. Behind a broken record, or one whose time leaps while those behind it
 * agree, it goes on where whole ones begin again, else stops: what was visited is whole.
 *
 * Compressed time stamps are made whole here, since they hang on the last time stamp of any message. Their five bits
 * count seconds and roll over every 32 s (FIT protocol, revision 1.1, table 4-2). A record with a compressed header
 * leaves out the time stamp that its definition may list.
 */
export function walkFitRecords(
  bytes: Uint8Array,
  start: number,
  end: number,
  visit: FitRecordVisitor,
  passed: FitStretchVisitor = () => {},
): FitWalk {
  const walker = new FitWalker(bytes, start, end, visit);
  let at = start;
  while (at < end) {
    const { skipped } = walker;
    const next = walker.step(at);
    if (next !== BAD && next !== CUT) {
      passed(at, next, walker.skipped === skipped);
      at = next;
      continue;
    }
    const whole = walker.skipFrom(at);
    if (whole === -1) return { at, stop: next === CUT ? 'cut-off' : 'bad-record', skipped: walker.skipped };
    passed(at, whole, false);
    at = whole;
  }
  return { at, stop: 'end', skipped: walker.skipped };
}

/** What a step returns in place of where the next record stands. */
const BAD = -1;
const CUT = -2;

class FitWalker {
  /** Bytes that were passed over. */
  skipped = 0;
  readonly #bytes: Uint8Array;
  readonly #view: DataView;
  readonly #end: number;
  readonly #visit: FitRecordVisitor;
  readonly #definitions: (FitDefinition | undefined)[] = new Array(16).fill(undefined);
  #lastTime = FIT_NO_TIME;
  #lastRecordTime = FIT_NO_TIME;
  /** Bytes that may be searched for the sake of doubtful times, so that doubts without end cost no more than the walk itself. */
  #doubtBudget: number;

  constructor(bytes: Uint8Array, start: number, end: number, visit: FitRecordVisitor) {
    this.#bytes = bytes;
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.#end = end;
    this.#visit = visit;
    this.#doubtBudget = 2 * (end - start);
  }

  /** Takes the definition or data record at `at`; returns where the next stands, or `BAD` or `CUT`. */
  step(at: number): number {
    const header = this.#bytes[at];
    if (isReserved(header)) return BAD;
    if (beginsDefinition(header)) return this.#define(header, at);
    const compressed = hasCompressedTime(header);
    const local = localMessage(header);
    const definition = this.#definitions[local];
    if (!definition) return BAD;
    const timeLeftOut = compressed && definition.timeOffset >= 0;
    const next = at + 1 + definition.size - (timeLeftOut ? 4 : 0);
    if (next > this.#end) return CUT;
    const time = compressed ? this.#compressedTime(header) : this.#time(definition, at);
    if (definition.message === FIT_RECORD && time !== FIT_NO_TIME) {
      const whole = this.#leaps(time) ? this.#secondThought(at, next) : -1;
      if (whole !== -1) return whole;
      this.#lastRecordTime = time;
    }
    if (time !== FIT_NO_TIME) this.#lastTime = time;
    if (definition.fields.length > 0) this.#visit(local, definition, at + 1, timeLeftOut, time);
    return next;
  }

  /** Where whole records begin again behind `broken`; -1 where they do not. */
  skipFrom(broken: number): number {
    const whole = resumeFitWalk(this.#bytes, this.#view, broken, this.#end, this.#definitions);
    if (whole !== -1) this.skipped += whole - broken;
    return whole;
  }

  #define(header: number, at: number): number {
    const read = readFitDefinition(this.#bytes, at, this.#end);
    if (!read.definition) return read.end === 0 ? CUT : BAD;
    this.#definitions[localMessage(header)] = read.definition;
    return read.end;
  }

  #compressedTime(header: number): number {
    const last = this.#lastTime;
    return last === FIT_NO_TIME ? FIT_NO_TIME : last + (((header & 31) - last) & 31);
  }

  #time(definition: FitDefinition, at: number): number {
    return definition.timeOffset < 0
      ? FIT_NO_TIME
      : this.#view.getUint32(at + 1 + definition.timeOffset, definition.littleEndian);
  }

  #leaps(time: number): boolean {
    return this.#lastRecordTime !== FIT_NO_TIME && Math.abs(time - this.#lastRecordTime) > DOUBTFUL_S;
  }

  /**
   * Of a record whose time leaps: -1 where those behind it leap along, or where only its time is wrong and the next stands where it should;
   * else where whole ones begin again.
   */
  #secondThought(at: number, next: number): number {
    if (this.#doubtBudget <= 0 || this.#agree(at)) return -1;
    if (this.#agree(next)) return -1;
    const whole = this.skipFrom(at);
    this.#doubtBudget -= whole === -1 ? REACH : whole - at;
    return whole;
  }

  #agree(at: number): boolean {
    return areAgreeingRecords(this.#bytes, this.#view, at, this.#end, this.#definitions);
  }
}
