import type { Transition } from '../hmm/transition.ts';
import type { GearCommands } from './gear-commands.ts';
import type { GearStates } from './gear-states.ts';
import type { PedallingSamples } from './pedalling-samples.ts';

/**
 * Chances of a change within one second. All are assumptions of ours, common sense put in numbers: nobody has measured
 * them in public. The trace hangs on their orders of magnitude only, since a second of steady pedalling outweighs any of them.
 */
const CHANCE = {
  /** The chain follows a fresh command. Weak on purpose: a missed shift must cost the model little. */
  followFresh: 0.3,
  /** The chain follows a command that is more than some seconds of pedalling old. */
  followOld: 0.015,
  /** The chain leaves the commanded cog, or moves on its own. */
  ownAccord: 3e-4,
  /** The rider shifts where no gear records tell. */
  unrecorded: 0.04,
  unrecordedRing: 0.004,
  recordedRingFresh: 0.3,
  recordedRing: 2e-3,
  driveToFree: 0.05,
  freeToDrive: 0.25,
  loseDrive: 3e-6,
  loseDriveAfterCommand: 3e-5,
  regainDrive: 0.04,
  /** Nothing changes cog while the chain stands still. */
  standing: 0.05,
} as const;

const FRESH_PEDALLING_S = 8;
const FRESH_LEAD_S = 1;
/** Of spontaneous or unrecorded changes, the share that goes one cog, two, three and so on. */
const STEP_SHARE = [0, 0.72, 0.18, 0.06, 0.025, 0.01, 0.005];
const DT_CLASSES_S = [1, 2, 3, 5, 8, 15, 60];

/**
 * Transition of the gear states, factored into cog, ring and mode so that a step costs gears x (cogs + rings), not gears squared.
 * Step t leads from record t - 1 to record t.
 */
export function gearTransition(
  states: GearStates,
  commands: GearCommands,
  timeS: Float64Array,
  samples: PedallingSamples,
): Transition {
  const situation = situations(commands, timeS, samples);
  const cogKernels = kernelCache((key) => cogKernel(states.cogs, key));
  const ringKernels = kernelCache((key) => ringKernel(states.rings, key));
  const mixed = new Float64Array(2 * states.gears);

  const moveGears = (t: number, from: Float64Array, transposed: boolean): void => {
    const s = situation(t);
    const cog = cogKernels({ ...s, target: s.cog, transposed });
    const ring = states.rings > 1 ? ringKernels({ ...s, target: s.ring, transposed }) : null;
    const { rings, cogs, gears } = states;
    const afterRing = ring ? new Float64Array(gears) : null;
    for (let mode = 0; mode < 2; mode++) {
      let source = from.subarray(mode * gears, (mode + 1) * gears);
      if (ring && afterRing) {
        afterRing.fill(0);
        for (let a = 0; a < rings; a++)
          for (let b = 0; b < rings; b++) {
            const share = ring[a * rings + b];
            if (share > 0) for (let c = 0; c < cogs; c++) afterRing[b * cogs + c] += share * source[a * cogs + c];
          }
        source = afterRing;
      }
      const target = mixed.subarray(mode * gears, (mode + 1) * gears).fill(0);
      for (let r = 0; r < rings; r++)
        for (let a = 0; a < cogs; a++) {
          const mass = source[r * cogs + a];
          if (mass === 0) continue;
          for (let b = 0; b < cogs; b++) target[r * cogs + b] += mass * cog[a * cogs + b];
        }
    }
  };

  return {
    states: states.count,
    forward(t, from, to) {
      const { gears, lost } = states;
      const s = situation(t);
      const chance = modeChances(s);
      moveGears(t, from, false);
      let lostMass = from[lost] * (1 - chance.regain);
      for (let g = 0; g < gears; g++) {
        const driving = mixed[g];
        const free = mixed[gears + g];
        lostMass += chance.lose * driving;
        const held = driving * (1 - chance.lose);
        to[g] = held * (1 - chance.coast) + free * chance.drive;
        to[gears + g] = held * chance.coast + free * (1 - chance.drive);
      }
      const regained = from[lost] * chance.regain;
      regainShares(states, s).forEach((share, g) => {
        to[g] += regained * share;
      });
      to[lost] = lostMass;
    },
    backward(t, from, to) {
      const { gears, lost } = states;
      const s = situation(t);
      const chance = modeChances(s);
      const before = new Float64Array(2 * gears);
      for (let g = 0; g < gears; g++) {
        const held = (1 - chance.coast) * from[g] + chance.coast * from[gears + g];
        before[g] = (1 - chance.lose) * held + chance.lose * from[lost];
        before[gears + g] = chance.drive * from[g] + (1 - chance.drive) * from[gears + g];
      }
      moveGears(t, before, true);
      to.set(mixed);
      let regained = 0;
      regainShares(states, s).forEach((share, g) => {
        regained += share * from[g];
      });
      to[lost] = chance.regain * regained + (1 - chance.regain) * from[lost];
    },
  };
}

/** What matters for one step: the commands in force, how fresh they are, whether the cranks turn, how long the step is. */
interface Situation {
  readonly cog: number;
  readonly ring: number;
  readonly freshCog: boolean;
  readonly freshRing: boolean;
  readonly turning: boolean;
  readonly dtClass: number;
}

function situations(commands: GearCommands, timeS: Float64Array, samples: PedallingSamples): (t: number) => Situation {
  const count = timeS.length;
  const freshCog = freshness(commands.cog, commands.timeS, timeS, samples);
  const freshRing = freshness(commands.ring, commands.timeS, timeS, samples);
  const dtClass = new Uint8Array(count);
  for (let t = 0; t < count; t++) {
    const found = DT_CLASSES_S.findIndex((dt) => samples.dtS[t] <= dt * 1.3);
    dtClass[t] = found < 0 ? DT_CLASSES_S.length - 1 : found;
  }
  return (t) => {
    const latest = commands.latest[t];
    return {
      cog: latest < 0 ? -1 : commands.cog[latest],
      ring: latest < 0 ? -1 : commands.ring[latest],
      freshCog: freshCog[t] === 1,
      freshRing: freshRing[t] === 1,
      turning: samples.pedalling[t] === 1 || samples.pedalling[t - 1] === 1,
      dtClass: dtClass[t],
    };
  };
}

/** 1 from a second before a change of command until 8 s have been pedalled since. */
function freshness(
  commanded: Int8Array,
  commandS: Float64Array,
  timeS: Float64Array,
  samples: PedallingSamples,
): Uint8Array {
  const fresh = new Uint8Array(timeS.length);
  let next = 0;
  let pedalledS = Number.POSITIVE_INFINITY;
  for (let t = 0; t < timeS.length; t++) {
    if (samples.pedalling[t]) pedalledS += samples.dtS[t];
    while (next < commandS.length && commandS[next] <= timeS[t] + FRESH_LEAD_S) {
      if (next > 0 && commanded[next] !== commanded[next - 1]) pedalledS = 0;
      next++;
    }
    fresh[t] = pedalledS < FRESH_PEDALLING_S ? 1 : 0;
  }
  return fresh;
}

type KernelKey = Situation & { readonly target: number; readonly transposed: boolean };

function kernelCache(make: (key: KernelKey) => Float64Array): (key: KernelKey) => Float64Array {
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

function cogKernel(cogs: number, key: KernelKey): Float64Array {
  const slow = key.turning ? 1 : CHANCE.standing;
  const dt = DT_CLASSES_S[key.dtClass];
  const within = (chance: number): number => 1 - (1 - chance * slow) ** dt;
  const matrix = new Float64Array(cogs * cogs);
  for (let from = 0; from < cogs; from++) {
    const follow =
      key.target < 0 || key.target === from ? 0 : within(key.freshCog ? CHANCE.followFresh : CHANCE.followOld);
    const wander = within(key.target < 0 ? CHANCE.unrecorded : CHANCE.ownAccord) * (1 - follow);
    const row = from * cogs;
    spreadSteps(matrix, row, from, cogs, wander);
    if (follow > 0) {
      matrix[row + key.target] += follow * 0.9;
      // on its way over several cogs the chain can be seen on those between
      const toward = Math.sign(key.target - from);
      matrix[row + from + toward] += follow * 0.1;
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
    if (step > 0) matrix[row + to] += (mass / 2) * (STEP_SHARE[step] ?? 0.002);
  }
}

function ringKernel(rings: number, key: KernelKey): Float64Array {
  const slow = key.turning ? 1 : CHANCE.standing;
  const dt = DT_CLASSES_S[key.dtClass];
  const matrix = new Float64Array(rings * rings);
  for (let from = 0; from < rings; from++) {
    for (let to = 0; to < rings; to++) {
      if (to === from) continue;
      const chance =
        key.target < 0
          ? CHANCE.unrecordedRing
          : to === key.target
            ? key.freshRing
              ? CHANCE.recordedRingFresh
              : CHANCE.recordedRing
            : CHANCE.ownAccord / 10;
      matrix[from * rings + to] = (1 - (1 - chance * slow) ** dt) / (rings - 1);
    }
    let left = 1;
    for (let to = 0; to < rings; to++) left -= to === from ? 0 : matrix[from * rings + to];
    matrix[from * rings + from] = left;
  }
  return key.transposed ? transpose(matrix, rings) : matrix;
}

function transpose(matrix: Float64Array, size: number): Float64Array {
  return matrix.map((_, i) => matrix[(i % size) * size + Math.floor(i / size)]);
}

function modeChances(s: Situation): { coast: number; drive: number; lose: number; regain: number } {
  const dt = DT_CLASSES_S[s.dtClass];
  const within = (chance: number): number => 1 - (1 - chance) ** dt;
  return {
    coast: within(CHANCE.driveToFree),
    drive: within(CHANCE.freeToDrive),
    lose: s.turning ? within(s.freshCog || s.freshRing ? CHANCE.loseDriveAfterCommand : CHANCE.loseDrive) : 0,
    regain: within(CHANCE.regainDrive),
  };
}

const shareCache = new WeakMap<GearStates, Map<number, Float64Array>>();

/** A chain put back lies anywhere, likeliest on the commanded gear, to which it runs in a few turns. */
function regainShares(states: GearStates, s: Situation): Float64Array {
  const cache = shareCache.get(states) ?? new Map<number, Float64Array>();
  shareCache.set(states, cache);
  const id = (s.cog + 1) * 8 + s.ring + 1;
  let shares = cache.get(id);
  if (!shares) {
    const { rings, cogs, gears } = states;
    shares = new Float64Array(gears);
    for (let r = 0; r < rings; r++)
      for (let c = 0; c < cogs; c++) {
        const ringShare = s.ring < 0 ? 1 / rings : r === s.ring ? 0.8 + 0.2 / rings : 0.2 / rings;
        const cogShare = s.cog < 0 ? 1 / cogs : c === s.cog ? 0.7 + 0.3 / cogs : 0.3 / cogs;
        shares[r * cogs + c] = ringShare * cogShare;
      }
    cache.set(id, shares);
  }
  return shares;
}
