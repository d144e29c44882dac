import type { Transition } from '../hmm/transition.ts';
import type { GearCommands } from './gear-commands.ts';
import { cogKernel, kernelCache, ringKernel } from './gear-kernels.ts';
import type { GearStates } from './gear-states.ts';
import type { PedallingSamples } from './pedalling-samples.ts';
import { CHANCE } from './transition-chances.ts';
import { DT_CLASSES_S, type Situation, situations } from './transition-situation.ts';

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

  /** Moves the chain between rings and cogs, driving and freewheeling alike, into `mixed`. */
  const moveGears = (t: number, from: Float64Array, transposed: boolean): void => {
    const s = situation(t);
    const cog = cogKernels({ ...s, target: s.cog, transposed });
    const ring = states.rings > 1 ? ringKernels({ ...s, target: s.ring, transposed }) : null;
    const { gears } = states;
    for (let mode = 0; mode < 2; mode++) {
      const source = from.subarray(mode * gears, (mode + 1) * gears);
      const target = mixed.subarray(mode * gears, (mode + 1) * gears);
      mixCogs(states, cog, ring ? mixRings(states, ring, source) : source, target);
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

/** Moves the mass of each gear between the rings. */
function mixRings({ rings, cogs, gears }: GearStates, kernel: Float64Array, source: Float64Array): Float64Array {
  const moved = new Float64Array(gears);
  for (let a = 0; a < rings; a++)
    for (let b = 0; b < rings; b++) {
      const share = kernel[a * rings + b];
      if (share > 0) for (let c = 0; c < cogs; c++) moved[b * cogs + c] += share * source[a * cogs + c];
    }
  return moved;
}

/** Moves the mass of each gear between the cogs, into `target`. */
function mixCogs({ rings, cogs }: GearStates, kernel: Float64Array, source: Float64Array, target: Float64Array): void {
  target.fill(0);
  for (let r = 0; r < rings; r++)
    for (let a = 0; a < cogs; a++) {
      const mass = source[r * cogs + a];
      if (mass === 0) continue;
      for (let b = 0; b < cogs; b++) target[r * cogs + b] += mass * kernel[a * cogs + b];
    }
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

/** Share of the chains put back that run straight to the commanded ring and cog; the rest lie on any. Assumptions of ours. */
const REGAINED = { ring: { to: 0.8, any: 0.2 }, cog: { to: 0.7, any: 0.3 } } as const;

/** Share that lies on `place`, one of `places`, where `commanded` (-1: none) is commanded. */
function commandedShare(
  place: number,
  commanded: number,
  places: number,
  { to, any }: { readonly to: number; readonly any: number },
): number {
  if (commanded < 0) return 1 / places;
  return place === commanded ? to + any / places : any / places;
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
        const ringShare = commandedShare(r, s.ring, rings, REGAINED.ring);
        const cogShare = commandedShare(c, s.cog, cogs, REGAINED.cog);
        shares[r * cogs + c] = ringShare * cogShare;
      }
    cache.set(id, shares);
  }
  return shares;
}
