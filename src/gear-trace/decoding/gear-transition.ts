import type { Transition } from '../../hmm/transition.ts';
import { cogKernel, kernelCache, ringKernel } from './gear-kernels.ts';
import type { GearStates } from './gear-states.ts';
import { regainShares } from './regain-shares.ts';
import { answersBack, type RingAnswers, ringAnswers } from './ring-answers.ts';
import { CHANCE, type Obedience, OPEN_TO_MISSES } from './transition-chances.ts';
import { DT_CLASSES_S, type Situation } from './transition-situation.ts';

/**
 * Transition of the gear states, factored into ring, cog and mode so that a step costs gears x (cogs + rings), not gears squared; where nothing is
 * recorded a change of ring may take cogs with it, which costs gears x cogs x rings.
 * Step t leads from record t - 1 to record t.
 */
export class GearTransition implements Transition {
  readonly states: number;
  readonly #gears: GearStates;
  readonly #situation: (t: number) => Situation;
  readonly #cogKernels: ReturnType<typeof kernelCache>;
  readonly #ringKernels: ReturnType<typeof kernelCache>;
  /** Scratch: the mass of each gear, driving and then freewheeling, once the chain has moved. */
  readonly #moved: Float64Array;
  /** Scratch: the mass of each gear, driving or freewheeling, between the two moves. */
  readonly #between: Float64Array;
  readonly #answers: { readonly ahead: RingAnswers; readonly back: RingAnswers };

  constructor(states: GearStates, situation: (t: number) => Situation, obedience: Obedience = OPEN_TO_MISSES) {
    this.states = states.count;
    this.#gears = states;
    this.#situation = situation;
    this.#cogKernels = kernelCache((key) => cogKernel(states.cogs, key, obedience));
    this.#ringKernels = kernelCache((key) => ringKernel(states.rings, key, obedience));
    this.#moved = new Float64Array(2 * states.gears);
    this.#between = new Float64Array(states.gears);
    const ahead = ringAnswers(states.cogs);
    this.#answers = { ahead, back: answersBack(ahead, states.cogs) };
  }

  forward(t: number, from: Float64Array, to: Float64Array): void {
    const { gears, lost } = this.#gears;
    const s = this.#situation(t);
    const chance = modeChances(s);
    this.#moveGears(s, from, false);
    let lostMass = from[lost] * (1 - chance.regain);
    for (let g = 0; g < gears; g++) {
      const driving = this.#moved[g];
      const free = this.#moved[gears + g];
      lostMass += chance.lose * driving;
      const held = driving * (1 - chance.lose);
      to[g] = held * (1 - chance.coast) + free * chance.drive;
      to[gears + g] = held * chance.coast + free * (1 - chance.drive);
    }
    const regained = from[lost] * chance.regain;
    regainShares(this.#gears, s).forEach((share, g) => {
      to[g] += regained * share;
    });
    to[lost] = lostMass;
  }

  backward(t: number, from: Float64Array, to: Float64Array): void {
    const { gears, lost } = this.#gears;
    const s = this.#situation(t);
    const chance = modeChances(s);
    const before = new Float64Array(2 * gears);
    for (let g = 0; g < gears; g++) {
      const held = (1 - chance.coast) * from[g] + chance.coast * from[gears + g];
      before[g] = (1 - chance.lose) * held + chance.lose * from[lost];
      before[gears + g] = chance.drive * from[g] + (1 - chance.drive) * from[gears + g];
    }
    this.#moveGears(s, before, true);
    to.set(this.#moved);
    let regained = 0;
    regainShares(this.#gears, s).forEach((share, g) => {
      regained += share * from[g];
    });
    to[lost] = chance.regain * regained + (1 - chance.regain) * from[lost];
  }

  /** Moves the chain between the rings and then between the cogs, driving and freewheeling alike; going back the cogs come first. */
  #moveGears(s: Situation, from: Float64Array, transposed: boolean): void {
    const states = this.#gears;
    const { gears } = states;
    const cog = this.#cogKernels({ ...s, target: s.cog, transposed });
    const ring = states.rings > 1 ? this.#ringKernels({ ...s, target: s.ring, transposed }) : null;
    const answers = s.cog < 0 && s.ring < 0 ? this.#answers[transposed ? 'back' : 'ahead'] : null;
    for (let mode = 0; mode < 2; mode++) {
      const source = from.subarray(mode * gears, (mode + 1) * gears);
      const target = this.#moved.subarray(mode * gears, (mode + 1) * gears);
      if (!ring) mixCogs(states, cog, source, target);
      else if (transposed) {
        mixCogs(states, cog, source, this.#between);
        mixRings(states, ring, answers, this.#between, target);
      } else {
        mixRings(states, ring, answers, source, this.#between);
        mixCogs(states, cog, this.#between, target);
      }
    }
  }
}

/** Moves the mass of each gear between the rings, into `target`, with what answers a change of ring on the cassette. */
function mixRings(
  { rings, cogs }: GearStates,
  kernel: Float64Array,
  answers: RingAnswers | null,
  source: Float64Array,
  target: Float64Array,
): void {
  target.fill(0);
  for (let a = 0; a < rings; a++) {
    const from = source.subarray(a * cogs, (a + 1) * cogs);
    for (let b = 0; b < rings; b++) {
      const share = kernel[a * rings + b];
      const to = target.subarray(b * cogs, (b + 1) * cogs);
      if (answers && a !== b) addMoved(b > a ? answers.toLargerRing : answers.toSmallerRing, share, from, to);
      else for (let c = 0; c < cogs; c++) to[c] += share * from[c];
    }
  }
}

/** Moves the mass of each gear between the cogs, into `target`. */
function mixCogs({ rings, cogs }: GearStates, kernel: Float64Array, source: Float64Array, target: Float64Array): void {
  target.fill(0);
  for (let r = 0; r < rings; r++) {
    const ring = [r * cogs, (r + 1) * cogs] as const;
    addMoved(kernel, 1, source.subarray(...ring), target.subarray(...ring));
  }
}

/** Adds a share of the mass on the cogs of one ring, moved by a kernel. */
function addMoved(kernel: Float64Array, share: number, source: Float64Array, target: Float64Array): void {
  const cogs = source.length;
  for (let a = 0; a < cogs; a++) {
    const mass = share * source[a];
    if (mass === 0) continue;
    for (let b = 0; b < cogs; b++) target[b] += mass * kernel[a * cogs + b];
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
