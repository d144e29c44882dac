import { type CogChange, type CommandMade, type MechanicalTrack, TRACK_HZ } from './mechanical-track.ts';

/** Collects a track while the mechanics run. */
export class TrackWriter {
  private count = 0;
  private readonly speedMps: Float64Array;
  private readonly distanceM: Float64Array;
  private readonly crankTurns: Float64Array;
  private readonly powerW: Float64Array;
  private readonly tensionN: Float64Array;
  private readonly cog: Int8Array;
  private readonly ring: Int8Array;
  private readonly driving: Uint8Array;
  private readonly covered: Uint8Array;
  private readonly halted: Uint8Array;
  readonly crankEventS: number[] = [];
  readonly wheelEventS: number[] = [];
  readonly commands: CommandMade[] = [];
  readonly ringCommands: { timeS: number; ring: number }[] = [];
  readonly cogChanges: CogChange[] = [];
  readonly drops: MechanicalTrack['drops'][number][] = [];
  readonly skips: { timeS: number; cog: number }[] = [];

  constructor(
    durationS: number,
    private readonly startCog: number,
    private readonly startRing: number,
  ) {
    const size = Math.ceil(durationS * TRACK_HZ) + 1;
    this.speedMps = new Float64Array(size);
    this.distanceM = new Float64Array(size);
    this.crankTurns = new Float64Array(size);
    this.powerW = new Float64Array(size);
    this.tensionN = new Float64Array(size);
    this.cog = new Int8Array(size);
    this.ring = new Int8Array(size);
    this.driving = new Uint8Array(size);
    this.covered = new Uint8Array(size);
    this.halted = new Uint8Array(size);
    this.cogChanges.push({ timeS: 0, cog: startCog, crankTurns: 0 });
  }

  /** One sample of every column. */
  sample(values: {
    speedMps: number;
    distanceM: number;
    crankTurns: number;
    powerW: number;
    tensionN: number;
    cog: number;
    ring: number;
    driving: boolean;
    covered: boolean;
    halted: boolean;
  }): void {
    const i = this.count++;
    this.speedMps[i] = values.speedMps;
    this.distanceM[i] = values.distanceM;
    this.crankTurns[i] = values.crankTurns;
    this.powerW[i] = values.powerW;
    this.tensionN[i] = values.tensionN;
    this.cog[i] = values.cog;
    this.ring[i] = values.ring;
    this.driving[i] = values.driving ? 1 : 0;
    this.covered[i] = values.covered ? 1 : 0;
    this.halted[i] = values.halted ? 1 : 0;
  }

  finish(): MechanicalTrack {
    const n = this.count;
    return {
      samples: n,
      speedMps: this.speedMps.subarray(0, n),
      distanceM: this.distanceM.subarray(0, n),
      crankTurns: this.crankTurns.subarray(0, n),
      powerW: this.powerW.subarray(0, n),
      tensionN: this.tensionN.subarray(0, n),
      cog: this.cog.subarray(0, n),
      ring: this.ring.subarray(0, n),
      driving: this.driving.subarray(0, n),
      covered: this.covered.subarray(0, n),
      halted: this.halted.subarray(0, n),
      crankEventS: this.crankEventS,
      wheelEventS: this.wheelEventS,
      commands: this.commands,
      ringCommands: this.ringCommands,
      cogChanges: this.cogChanges,
      drops: this.drops,
      skips: this.skips,
      startCog: this.startCog,
      startRing: this.startRing,
    };
  }
}
