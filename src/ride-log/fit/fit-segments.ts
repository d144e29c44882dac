import { fitCrc } from './fit-crc.ts';
import { fitHeader, nextFitHeader } from './fit-header.ts';

/** What is wrong with the frame of a segment. */
export type FitFrameFault = 'crc-wrong' | 'cut-off' | 'size-zero' | 'size-wrong' | 'stray-bytes';

/** The records of one FIT segment: bytes from `start` up to, not including, `end`. */
export interface FitSegment {
  readonly start: number;
  readonly end: number;
  /** True where `end` is a guess: up to two bytes of CRC, or the first half of a record, may stand before it. */
  readonly open: boolean;
  readonly faults: readonly FitFrameFault[];
}

/** CRCs are checked over at most this many times the file's length, so that headers within headers cost no time. */
const CRC_BUDGET = 4;

/**
 * Finds the segments of a FIT file and mends their sizes: a segment whose size is 0, runs past the end of the file, or
 * ends where neither the file nor another segment does and whose CRC is wrong, reaches to the next header or the end.
 */
export function fitSegments(bytes: Uint8Array): FitSegment[] {
  const segments: FitSegment[] = [];
  let budget = CRC_BUDGET * bytes.length;
  let at = 0;
  while (at < bytes.length) {
    const header = fitHeader(bytes, at);
    if (!header) {
      const next = nextFitHeader(bytes, at);
      segments.push({ start: at, end: at, open: false, faults: ['stray-bytes'] });
      if (next === -1) break;
      at = next;
      continue;
    }
    const start = at + header.size;
    const promised = start + header.dataSize;
    const faults = new Set<FitFrameFault>();
    if (!header.crcRight) faults.add('crc-wrong');
    if (header.dataSize > 0 && promised + 2 <= bytes.length) {
      const checked = promised + 2 - at <= budget;
      budget -= promised + 2 - at;
      const right = checked && fitCrc(bytes, at, promised + 2) === 0;
      if (right || promised + 2 === bytes.length || fitHeader(bytes, promised + 2)) {
        if (!right) faults.add('crc-wrong');
        segments.push({ start, end: promised, open: false, faults: [...faults] });
        at = promised + 2;
        continue;
      }
      faults.add('crc-wrong').add('size-wrong');
    } else if (header.dataSize === 0) {
      // The smallest legal file: a header and the CRC of nothing.
      if (start + 2 >= bytes.length) break;
      faults.add('size-zero');
    } else {
      faults.add('cut-off');
    }
    const next = nextFitHeader(bytes, start);
    const end = next === -1 ? bytes.length : next;
    segments.push({ start, end, open: true, faults: [...faults] });
    at = end;
  }
  return segments;
}
