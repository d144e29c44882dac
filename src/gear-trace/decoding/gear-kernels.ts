import { transpose } from '../../numeric/transpose.ts';
import { CHANCE, type Obedience } from './transition-chances.ts';
import { DT_CLASSES_S, type Situation } from './transition-situation.ts';

/** Of spontaneous or unrecorded changes, the share that goes one cog, two, three and so on. */
const STEP_SHARE = [0, 0.72, 0.18, 0.06, 0.025, 0.01, 0.005];
/** The share of each step further than those. */
const FURTHER_SHARE = 0.002;
/** Of moves that follow a command within a second, the share that is on the commanded cog, and the share that is one cog on its way. */
const ARRIVED_SHARE = 0.9;
const UNDER_WAY_SHARE = 0.1;

/** What a kernel hangs on: the situation, the commanded cog or ring (-1: none), and whether it is the one for going back. */
export type KernelKey = Situation & { readonly target: number; readonly transposed: boolean };

/** Makes each kernel once. */
export function kernelCache(make: (key: KernelKey) => Float64Array): (key: KernelKey) => Float64Array {
  const cache = new Map<number, Float64Array>();
  return (key) => {
    const flags = (key.freshCog ? 1 : 0) + (key.freshRing ? 2 : 0) + (key.turning ? 4 : 0) + (key.transposed ? 8 : 0);
    const id = ((key.target + 1) * 16 + flags) * DT_CLASSES_S.length + key.dtClass;
    let kernel = cache.get(id);
    if (!kernel) {
      kernel = make(key);
      cache.set(id, kernel);
    }
    return kernel;
  };
}

/** Chances that the chain is on each cog after a step from each, row-major cogs x cogs; every row sums to 1. */
export function cogKernel(cogs: number, key: KernelKey, obedience: Obedience): Float64Array {
  const slow = key.turning ? 1 : CHANCE.standing;
  const dt = DT_CLASSES_S[key.dtClass];
  const within = (chance: number): number => 1 - (1 - chance * slow) ** dt;
  const matrix = new Float64Array(cogs * cogs);
  for (let from = 0; from < cogs; from++) {
    const follow =
      key.target < 0 || key.target === from ? 0 : within(key.freshCog ? obedience.followFresh : obedience.followOld);
    const wander = within(key.target < 0 ? CHANCE.unrecorded : obedience.ownAccord) * (1 - follow);
    const row = from * cogs;
    spreadSteps(matrix, row, from, cogs, wander);
    if (follow > 0) {
      matrix[row + key.target] += follow * ARRIVED_SHARE;
      // on its way over several cogs the chain can be seen on those between
      const toward = Math.sign(key.target - from);
      matrix[row + from + toward] += follow * UNDER_WAY_SHARE;
    }
    let left = 1;
    for (let to = 0; to < cogs; to++) left -= to === from ? 0 : matrix[row + to];
    matrix[row + from] = left;
  }
  return key.transposed ? transpose(matrix, cogs) : matrix;
}

function spreadSteps(matrix: Float64Array, row: number, from: number, cogs: number, mass: number): void {
  for (let to = 0; to < cogs; to++) {
    const step = Math.abs(to - from);
    if (step > 0) matrix[row + to] += (mass / 2) * (STEP_SHARE[step] ?? FURTHER_SHARE);
  }
}

/** The same for the rings. What has no ring for its aim is shared by all the others. */
export function ringKernel(rings: number, key: KernelKey, { unrecordedRing }: Obedience): Float64Array {
  const slow = key.turning ? 1 : CHANCE.standing;
  const dt = DT_CLASSES_S[key.dtClass];
  const within = (chance: number): number => 1 - (1 - chance * slow) ** dt;
  const follow = within(key.freshRing ? CHANCE.recordedRingFresh : CHANCE.recordedRing);
  const wander = within(key.target < 0 ? unrecordedRing : CHANCE.ringOwnAccord) / (rings - 1);
  const matrix = new Float64Array(rings * rings);
  for (let from = 0; from < rings; from++) {
    let left = 1;
    for (let to = 0; to < rings; to++) {
      if (to === from) continue;
      const chance = to === key.target ? follow : wander;
      matrix[from * rings + to] = chance;
      left -= chance;
    }
    matrix[from * rings + from] = left;
  }
  return key.transposed ? transpose(matrix, rings) : matrix;
}
