/** First bytes of packed files. */
const packings: readonly (readonly [string, readonly number[]])[] = [
  ['gzip', [0x1f, 0x8b]],
  ['zip', [0x50, 0x4b, 0x03, 0x04]],
  ['bzip2', [0x42, 0x5a, 0x68]],
  ['xz', [0xfd, 0x37, 0x7a, 0x58, 0x5a]],
  ['zstd', [0x28, 0xb5, 0x2f, 0xfd]],
  ['7z', [0x37, 0x7a, 0xbc, 0xaf, 0x27, 0x1c]],
];

/** With what a file is packed, by how it begins; null where it is not. */
export const packedWith = (bytes: Uint8Array): string | null =>
  packings.find(([, start]) => start.every((byte, i) => bytes[i] === byte))?.[0] ?? null;
