/** Reflected polynomial of CRC-16/ARC, which FIT uses with start value 0. */
const POLYNOMIAL = 0xa001;

const TABLE = Uint16Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ POLYNOMIAL : crc >>> 1;
  return crc;
});

/**
 * CRC-16/ARC of `bytes` from `start` up to, not including, `end`. The CRC of data followed by its own CRC (low byte
 * first) is 0. Source: FIT protocol, revision 1.1, 3.3.2, whose table of sixteen nibbles gives the same values.
 *
 * @example fitCrc(new TextEncoder().encode('123456789')) // 0xBB3D
 */
export function fitCrc(bytes: Uint8Array, start = 0, end = bytes.length): number {
  let crc = 0;
  for (let i = start; i < end; i++) crc = (crc >>> 8) ^ TABLE[(crc ^ bytes[i]) & 0xff];
  return crc;
}
