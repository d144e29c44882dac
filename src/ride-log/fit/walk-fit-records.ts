import { type FitDefinition, readFitDefinition } from './fit-definition.ts';
import { FIT_NO_TIME } from './fit-wanted.ts';

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

/** Where a walk ended, and why: at `end`, in a record that `end` cuts off, or at a byte that begins no record. */
export interface FitWalk {
  readonly at: number;
  readonly stop: 'end' | 'cut-off' | 'bad-record';
}

/**
 * Walks the records of one segment without decoding them, and stops at the first thing that is no record: all before
 * it is whole. Compressed time stamps are made whole here, since they hang on the last time stamp of any message.
 * Their five bits count seconds and roll over every 32 s (FIT protocol, revision 1.1, table 4-2). A record with a compressed header
 * leaves out the time stamp that its definition may list.
 */
export function walkFitRecords(bytes: Uint8Array, start: number, end: number, visit: FitRecordVisitor): FitWalk {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const definitions: (FitDefinition | undefined)[] = new Array(16).fill(undefined);
  let lastTime = FIT_NO_TIME;
  let at = start;
  while (at < end) {
    const header = bytes[at];
    const compressed = (header & 0x80) !== 0;
    if (!compressed && header & 0x40) {
      if (header & 0x10) return { at, stop: 'bad-record' };
      const read = readFitDefinition(bytes, at, end);
      if (!read.definition) return { at, stop: read.end === 0 ? 'cut-off' : 'bad-record' };
      definitions[header & 0x0f] = read.definition;
      at = read.end;
      continue;
    }
    const local = compressed ? (header >> 5) & 3 : header & 0x0f;
    const definition = definitions[local];
    if (!definition || (!compressed && header & 0x30)) return { at, stop: 'bad-record' };
    const timeLeftOut = compressed && definition.timeOffset >= 0;
    const next = at + 1 + definition.size - (timeLeftOut ? 4 : 0);
    if (next > end) return { at, stop: 'cut-off' };
    let time = FIT_NO_TIME;
    if (compressed) {
      if (lastTime !== FIT_NO_TIME) lastTime += ((header & 31) - lastTime) & 31;
      time = lastTime;
    } else if (definition.timeOffset >= 0) {
      time = view.getUint32(at + 1 + definition.timeOffset, definition.littleEndian);
      if (time !== FIT_NO_TIME) lastTime = time;
    }
    if (definition.fields.length > 0) visit(local, definition, at + 1, timeLeftOut, time);
    at = next;
  }
  return { at, stop: 'end' };
}
