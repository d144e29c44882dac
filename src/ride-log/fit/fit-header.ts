import { fitCrc } from './fit-crc.ts';

/** The header of one FIT segment. */
export interface FitHeader {
  readonly size: number;
  /** Bytes of records that the header promises; 0 after an interrupted recording. */
  readonly dataSize: number;
  /** False where the header carries a CRC of its own and it is wrong. */
  readonly crcRight: boolean;
}

const SIGNATURE = [0x2e, 0x46, 0x49, 0x54]; // .FIT

/** Reads the FIT header at `at`; null where there is none. Headers are 12 or, since a CRC was added, 14 bytes long. */
export function fitHeader(bytes: Uint8Array, at = 0): FitHeader | null {
  const size = bytes[at];
  if ((size !== 12 && size !== 14) || at + size > bytes.length) return null;
  if (SIGNATURE.some((byte, i) => bytes[at + 8 + i] !== byte)) return null;
  const view = new DataView(bytes.buffer, bytes.byteOffset + at, size);
  const crc = size === 14 ? view.getUint16(12, true) : 0;
  return { size, dataSize: view.getUint32(4, true), crcRight: crc === 0 || crc === fitCrc(bytes, at, at + 12) };
}

/** Where the next FIT header stands at or after `from`; -1 where there is none. */
export function nextFitHeader(bytes: Uint8Array, from: number): number {
  for (let dot = bytes.indexOf(SIGNATURE[0], from + 8); dot !== -1; dot = bytes.indexOf(SIGNATURE[0], dot + 1)) {
    if (fitHeader(bytes, dot - 8)) return dot - 8;
  }
  return -1;
}
