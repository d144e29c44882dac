import { type MechanicalTrack, TRACK_HZ } from '../../../src/simulate/mechanics/mechanical-track.ts';

/**
 * A track of steady pedalling with the given commands and changes of cog, made by hand. `rpmAt` may rest the crank.
 */
export function madeTrack(
  seconds: number,
  commands: readonly (readonly [timeS: number, fromCog: number, toCog: number])[],
  changes: readonly (readonly [timeS: number, cog: number])[],
  startCog: number,
  rpmAt: (timeS: number) => number = () => 60,
): MechanicalTrack {
  const samples = seconds * TRACK_HZ + 1;
  const crankTurns = new Float64Array(samples);
  for (let i = 1; i < samples; i++) crankTurns[i] = crankTurns[i - 1] + rpmAt((i - 1) / TRACK_HZ) / 60 / TRACK_HZ;
  const turnsAt = (timeS: number): number => crankTurns[Math.round(timeS * TRACK_HZ)];
  const zeros = (): Uint8Array => new Uint8Array(samples);
  return {
    samples,
    speedMps: new Float64Array(samples),
    distanceM: new Float64Array(samples),
    crankTurns,
    powerW: new Float64Array(samples),
    tensionN: new Float64Array(samples),
    cog: new Int8Array(samples),
    ring: new Int8Array(samples),
    driving: zeros(),
    covered: zeros(),
    halted: zeros(),
    crankEventS: [],
    wheelEventS: [],
    commands: commands.map(([timeS, fromCog, toCog]) => ({ timeS, fromCog, toCog, crankTurns: turnsAt(timeS) })),
    ringCommands: [],
    cogChanges: [
      { timeS: 0, cog: startCog, crankTurns: 0 },
      ...changes.map(([timeS, cog]) => ({ timeS, cog, crankTurns: turnsAt(timeS) })),
    ],
    drops: [],
    skips: [],
    startCog,
    startRing: 0,
  };
}
