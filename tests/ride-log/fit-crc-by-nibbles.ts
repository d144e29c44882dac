import checks from '../checks/fit-protocol.json' with { type: 'json' };

const TABLE = checks.crcNibbles.hex.map((hex) => Number.parseInt(hex, 16));

/** The FIT CRC nibble by nibble with the published table of sixteen: the slow twin of the reader's own. */
export function fitCrcByNibbles(bytes: Uint8Array): number {
  let crc = 0;
  for (const byte of bytes) {
    for (const nibble of [byte & 0x0f, byte >> 4]) crc = (crc >> 4) ^ TABLE[crc & 0x0f] ^ TABLE[nibble];
  }
  return crc;
}
