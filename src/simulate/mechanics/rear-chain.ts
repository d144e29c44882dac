import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { BikeCondition } from './bike-condition.ts';

/** Sideways pull of the chain, in pitches, at which a ramp lifts it to the larger cog, and at which it leaves for the smaller. */
const CLIMB_AT = 0.735;
const FALL_AT = 0.705;
/** What 1000 N of chain tension add to those, in pitches. */
const CLIMB_LOAD_PER_1000_N = 0.2;
const FALL_LOAD_PER_1000_N = 0.1;
/** Scatter from one ramp to the next (plates, rollers, play), in pitches. */
const RAMP_SCATTER = 0.07;
/** Place beyond an end cog, in pitches, at which a chain that lands on it goes past, and how far a landing chain carries on. */
const PAST_END_AT = 0.52;
const CARRY_ON = 0.085;
/** The same for a chain that lies on the end cog already. */
const DRAWN_PAST_AT = 0.7;
/** Most cogs that the chain can lie across at once, besides the first. */
const SPAN_COGS = 3;
/** Part of the cog that the chain wraps from the pulley side to the tight upper run. */
const WRAP_TURNS = 0.4;
/** A ramp takes the chain only if the right link meets it. */
const RAMP_MEETS = 0.6;

/** From this pull on, in pitches, the chain grazes the neighbouring cog, and the chance that a ramp then takes it at `GRAZE_FULL` more. */
const GRAZE_AT = 0.25;
const GRAZE_FULL = 0.1;
const GRAZE_TAKES = 4e-4;

/** Chance of a knock in one step on the roughest ground. */
const KNOCKS_PER_STEP = 0.06;

/** The end of the cassette that a chain was lost over. */
type EndSide = 'past-largest' | 'past-smallest';

/**
 * The chain on the cassette. The guide pulley draws the slack lower run sideways; the pull builds up over the links
 * that run through; ramps pass as the cassette turns, and one that finds enough pull takes the chain over. The change
 * then travels round the cog to the upper run, and only there the gear changes.
 */
export class RearChain {
  /** Cog at the pulley side, and cog that drives. */
  entryCog: number;
  driveCog: number;
  /** Set when the chain went past an end cog; the ride puts it back with `refit`. */
  lost: EndSide | null = null;
  private pullMm = 0;
  private jitterMm = 0;
  /** Guide pulley relative to the cog it feeds, inboard positive. */
  private beyondMm = 0;
  private links = 0;
  private readonly climbPhase: Float64Array;
  private readonly underwayCog: number[] = [];
  private readonly underwayAt: number[] = [];

  constructor(
    readonly condition: BikeCondition,
    readonly teeth: readonly number[],
    startCog: number,
    private readonly random: SeededRandom,
  ) {
    this.entryCog = startCog;
    this.driveCog = startCog;
    this.climbPhase = Float64Array.from(teeth, () => random.uniform());
  }

  refit(cog: number): void {
    this.lost = null;
    this.entryCog = cog;
    this.driveCog = cog;
    this.pullMm = 0;
    this.underwayCog.length = 0;
    this.underwayAt.length = 0;
  }

  /**
   * `linksRun` links ran onto the cassette in this step under `tensionN`; the pulley stands at `pulleyMm`; the road
   * shakes by `shake` (0 to 1).
   */
  step(linksRun: number, tensionN: number, pulleyMm: number, shake: number): void {
    const { condition } = this;
    this.shiver(shake);
    if (linksRun <= 0 || this.lost) return;
    const entry = this.entryCog;
    const lateral = entry * condition.pitchMm + condition.cogErrorMm[entry];
    this.beyondMm = pulleyMm - lateral;
    const aim = this.beyondMm * this.authority(entry);
    this.pullMm += (aim - this.pullMm) * (1 - Math.exp(-linksRun / this.buildUpLinks(entry)));
    const before = this.links;
    this.links = before + linksRun;
    while (this.underwayAt.length > 0 && this.underwayAt[0] <= this.links) {
      this.driveCog = this.underwayCog.shift() as number;
      this.underwayAt.shift();
    }
    this.meetRamps(before, tensionN / 1000, shake);
  }

  /** Sideways shivering of the chain: a little always, more on rough ground, and now and then the knock of a stone. */
  private shiver(shake: number): void {
    const { random } = this;
    this.jitterMm += -0.25 * this.jitterMm + 0.66 * (0.08 + 0.2 * shake) * random.normal();
    if (shake > 0.1 && random.chance(KNOCKS_PER_STEP * shake))
      this.jitterMm += 0.12 * this.condition.pitchMm * random.normal();
  }

  private meetRamps(before: number, loadKn: number, shake: number): void {
    const { condition, random, entryCog: entry } = this;
    const pitch = condition.pitchMm;
    const turnsBefore = before / this.teeth[entry];
    const turnsNow = this.links / this.teeth[entry];
    const climbing = this.pullMm > 0;
    const neighbour = climbing ? Math.min(entry + 1, condition.cogs - 1) : entry;
    const ramps = Math.max(3, Math.round(this.teeth[neighbour] / (climbing ? 4 : 3)));
    const phase = this.climbPhase[neighbour];
    if (Math.floor(turnsNow * ramps + phase) === Math.floor(turnsBefore * ramps + phase)) return;
    const pull = (this.pullMm + this.jitterMm) / pitch + RAMP_SCATTER * random.normal();
    if (Math.abs(entry - this.driveCog) >= SPAN_COGS) return;
    if (climbing) {
      if (entry === condition.cogs - 1) {
        if (this.pullMm / pitch > DRAWN_PAST_AT) this.lost = 'past-largest';
        return;
      }
      const crowding = this.crowdingMm(entry + 1);
      const need = CLIMB_AT + CLIMB_LOAD_PER_1000_N * loadKn + 0.045 * crowding;
      if (pull > need ? random.chance(RAMP_MEETS / (1 + 0.5 * crowding)) : this.grazes(loadKn, shake))
        this.take(entry + 1);
    } else {
      if (entry === 0) {
        if (-this.pullMm / pitch > DRAWN_PAST_AT) this.lost = 'past-smallest';
        return;
      }
      const need = FALL_AT + FALL_LOAD_PER_1000_N * loadKn;
      if (-pull > need ? random.chance(RAMP_MEETS) : this.grazes(loadKn, shake)) this.take(entry - 1);
    }
  }

  /** Whether a chain that rubs along the next cog is caught by it at this ramp. */
  private grazes(loadKn: number, shake: number): boolean {
    const over = Math.abs(this.pullMm) / this.condition.pitchMm - GRAZE_AT;
    if (over <= 0) return false;
    const contact = Math.min(1, over / GRAZE_FULL) ** 2;
    return this.random.chance(GRAZE_TAKES * contact * (0.5 + shake) * (1 + loadKn));
  }

  private take(cog: number): void {
    const step = (cog - this.entryCog) * this.condition.pitchMm;
    this.pullMm -= step;
    this.beyondMm -= step;
    this.entryCog = cog;
    if (cog === 0 || cog === this.condition.cogs - 1) this.landOnEnd(cog);
    this.underwayCog.push(cog);
    const last = this.underwayAt.at(-1) ?? 0;
    this.underwayAt.push(Math.max(last, this.links + WRAP_TURNS * this.teeth[cog]));
  }

  /** A chain that comes down on an end cog carries on a little; with the pulley far beyond, it goes past. */
  private landOnEnd(cog: number): void {
    const outward = cog === 0 ? -this.beyondMm : this.beyondMm;
    const reach = outward / this.condition.pitchMm + CARRY_ON * Math.abs(this.random.normal());
    if (reach > PAST_END_AT) this.lost = cog === 0 ? 'past-smallest' : 'past-largest';
  }

  /** Pulley to cog tips at a cog, mm: the cage follows the cassette's cone only in part. */
  private gapAtMm(cog: number): number {
    const largest = this.teeth[this.teeth.length - 1];
    return this.condition.gapMm + 0.09 * (largest - this.teeth[cog]);
  }

  /** How far the pulley digs into the space of a cog's teeth, mm: only where the gap is too small. */
  private crowdingMm(cog: number): number {
    return Math.max(0, 3.2 - this.gapAtMm(cog));
  }

  /** Links that must run before the chain follows the pulley: more the longer the free piece between them. */
  private buildUpLinks(cog: number): number {
    const gap = Math.max(2, this.gapAtMm(cog));
    return 1.2 + 0.9 * (gap / 9) ** 3.2 + 1.2 * this.crowdingMm(cog);
  }

  /** Part of the pulley's sideways place that the chain takes on; a twisted hanger sets the pulley askew and loses some. */
  private authority(cog: number): number {
    const free = Math.max(0, this.gapAtMm(cog) - 12);
    return (1 - 0.006 * free) * (1 - 1.2 * Math.abs(this.condition.hangerBendRad));
  }
}
