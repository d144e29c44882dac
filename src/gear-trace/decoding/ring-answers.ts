import { transpose } from '../../numeric/transpose.ts';

/**
 * Where no gear records tell: by how many cogs a rider takes a part of a change of ring back, from `FROM` on; below 0 are cogs that add to it. Of 56 changes
 * of one real ride of 20 h a fifth left the cog alone and six in ten took a part back, within 4 s; the shares are wider than that (an assumption of ours).
 */
const TAKEN_BACK_SHARE = [0.015, 0.035, 0.055, 0.055, 0.22, 0.2, 0.19, 0.1, 0.07, 0.04, 0.02];
const FROM = -4;

/** Chances of where the chain lies on the cassette once the ring has changed, by the cog it lay on: each row-major cogs x cogs, rows sum to 1. */
export interface RingAnswers {
  readonly toSmallerRing: Float64Array;
  readonly toLargerRing: Float64Array;
}

/** Answers to a change of ring, for going ahead in time, on a cassette of so many cogs (smallest first). */
export const ringAnswers = (cogs: number): RingAnswers => ({
  toSmallerRing: answers(cogs, -1),
  toLargerRing: answers(cogs, 1),
});

/** The same for going back: what leads to a smaller ring came from a larger one. */
export const answersBack = ({ toSmallerRing, toLargerRing }: RingAnswers, cogs: number): RingAnswers => ({
  toSmallerRing: transpose(toLargerRing, cogs),
  toLargerRing: transpose(toSmallerRing, cogs),
});

/** @param back which way on the cassette takes a part of the change back: 1 to larger cogs */
function answers(cogs: number, back: 1 | -1): Float64Array {
  const matrix = new Float64Array(cogs * cogs);
  for (let from = 0; from < cogs; from++) {
    const row = matrix.subarray(from * cogs, (from + 1) * cogs);
    TAKEN_BACK_SHARE.forEach((share, i) => {
      const to = from + (FROM + i) * back;
      if (to >= 0 && to < cogs) row[to] = share;
    });
    const reached = row.reduce((sum, share) => sum + share, 0);
    for (let to = 0; to < cogs; to++) row[to] /= reached;
  }
  return matrix;
}
