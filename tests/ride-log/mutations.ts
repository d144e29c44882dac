import type { SeededRandom } from '../../src/numeric/seeded-random.ts';

type Bytes = Uint8Array<ArrayBuffer>;
type Mutation = (bytes: Bytes, random: SeededRandom, other: Bytes) => Bytes;

const EXTREMES = [0, 1, 2, 0x7f, 0x80, 0xff];

const flipBits: Mutation = (bytes, random) => {
  const mutated = bytes.slice();
  for (let n = 1 + random.integer(8); n > 0 && mutated.length > 0; n--)
    mutated[random.integer(mutated.length)] ^= 1 << random.integer(8);
  return mutated;
};

const extremeBytes: Mutation = (bytes, random) => {
  const mutated = bytes.slice();
  for (let n = 1 + random.integer(4); n > 0 && mutated.length > 0; n--)
    mutated[random.integer(mutated.length)] = EXTREMES[random.integer(EXTREMES.length)];
  return mutated;
};

/** The header and the first definitions decide most: damage them more often than chance would. */
const damageHead: Mutation = (bytes, random) => {
  const mutated = bytes.slice();
  for (let n = 1 + random.integer(6); n > 0 && mutated.length > 0; n--)
    mutated[random.integer(Math.min(120, mutated.length))] = random.integer(256);
  return mutated;
};

const cut: Mutation = (bytes, random) => bytes.slice(0, random.integer(bytes.length + 1));

const remove: Mutation = (bytes, random) => {
  const start = random.integer(bytes.length + 1);
  const end = Math.min(bytes.length, start + random.integer(64));
  return join(bytes.subarray(0, start), bytes.subarray(end));
};

const repeat: Mutation = (bytes, random) => {
  const start = random.integer(bytes.length + 1);
  const piece = bytes.subarray(start, Math.min(bytes.length, start + random.integer(512)));
  return join(bytes.subarray(0, start), piece, piece, piece, bytes.subarray(start));
};

const splice: Mutation = (bytes, random, other) =>
  join(bytes.subarray(0, random.integer(bytes.length + 1)), other.subarray(random.integer(other.length + 1)));

const lyingSize: Mutation = (bytes, random) => {
  const mutated = bytes.slice();
  const sizes = [0, 1, bytes.length, bytes.length - 15, bytes.length * 2, 0x7fffffff, 0xffffffff];
  if (mutated.length >= 12) new DataView(mutated.buffer).setUint32(4, sizes[random.integer(sizes.length)], true);
  return mutated;
};

const MUTATIONS: readonly Mutation[] = [flipBits, extremeBytes, damageHead, cut, remove, repeat, splice, lyingSize];

/** One to three mutations, one upon another. `other` is what a splice takes its second half from. */
export function mutate(bytes: Bytes, random: SeededRandom, other: Bytes): Bytes {
  let mutated = bytes;
  for (let n = 1 + random.integer(3); n > 0; n--)
    mutated = MUTATIONS[random.integer(MUTATIONS.length)](mutated, random, other);
  return mutated;
}

function join(...parts: Uint8Array[]): Bytes {
  const joined = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    joined.set(part, at);
    at += part.length;
  }
  return joined;
}
