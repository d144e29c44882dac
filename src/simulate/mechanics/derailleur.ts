import type { SeededRandom } from '../../numeric/seeded-random.ts';
import type { BikeCondition } from './bike-condition.ts';
import { hangerErrorMm } from './hanger.ts';

/** Return spring at the pulley: force on the smallest cog, N, and its rise, N/mm. Cable and housing: stiffness, N/mm. */
const SPRING_BASE_N = 11;
const SPRING_RATE_N_PER_MM = 0.45;
const CABLE_STIFFNESS_N_PER_MM = 17;
/** Static friction over sliding friction: what makes the cage stick, then slip. */
const STICTION_RATIO = 1.25;
/** Fastest the thumb pulls and the spring returns the cage, mm/s; a servo's speed. */
const PULL_SPEED_MMPS = 45;
const RETURN_SPEED_MMPS = 38;
const SERVO_SPEED_MMPS = 30;
/** How differently a detent, or a servo, seats from one press to the next, in pitches. */
const SEAT_SCATTER = 0.035;
/** Speed at which road shake works a sticking cable loose, mm/s. */
const CREEP_MMPS = 1.2;
/** A cage slower than this is held by static friction, mm/s. */
const STILL_MMPS = 8;

/**
 * The guide pulley's sideways place, moved by a shifter through cable and housing (or by a servo) against a return
 * spring, between two stop screws. The shifter's detents are exact; what arrives at the pulley is not.
 */
export class Derailleur {
  /** Index the shifter stands at: the commanded cog. */
  commanded: number;
  /** Where the cage stands, mm. */
  cageMm: number;
  /** Where the guide pulley stands, hanger and frame flex included, mm. */
  pulleyMm = 0;
  private shifterMm: number;
  private overtravelMm = 0;
  private overtravelLeftS = 0;
  private sticking = true;
  private gripFactor = 1;
  private seatMm = 0;
  private readonly electronic: boolean;
  private readonly random: SeededRandom;

  constructor(
    readonly condition: BikeCondition,
    startCog: number,
    electronic: boolean,
    random: SeededRandom,
  ) {
    this.electronic = electronic;
    this.random = random;
    this.commanded = startCog;
    this.shifterMm = this.detentMm(startCog);
    this.cageMm = this.clampToStops(this.restingMm(0));
    this.pulleyMm = this.cageMm;
  }

  /** Moves the shifter by whole detents, positive to larger cogs; returns how many it really moved. */
  press(detents: number): number {
    const last = this.condition.cogs - 1;
    const target = Math.max(0, Math.min(last, this.commanded + detents));
    const moved = target - this.commanded;
    if (moved === 0) return 0;
    this.commanded = target;
    this.gripFactor = Math.exp(0.3 * this.random.normal());
    this.seatMm = SEAT_SCATTER * this.condition.pitchMm * this.random.normal();
    if (moved > 0) {
      // The thumb pushes past the detent before the pawl takes over; onto the last cog some hold until the chain is up.
      const heldOn = target === last && this.random.chance(0.6);
      this.overtravelMm = this.condition.pitchMm * this.random.between(heldOn ? 0.3 : 0.15, heldOn ? 0.8 : 0.4);
      this.overtravelLeftS = heldOn ? this.random.between(0.4, 0.9) : this.random.between(0.1, 0.25);
    } else {
      // The release lets the cable run a little past the next tooth of the ratchet.
      this.overtravelMm = -this.condition.pitchMm * this.random.between(0.05, 0.2);
      this.overtravelLeftS = this.random.between(0.03, 0.1);
    }
    return moved;
  }

  /**
   * One step. `shake` is the road's vibration (0 smooth, 1 rough), which works a sticking cable loose; `flexMm` the
   * sideways give of the frame under the pedals.
   */
  step(dtS: number, shake: number, flexMm: number): void {
    if (this.electronic) this.stepServo(dtS);
    else this.stepCable(dtS, shake);
    this.cageMm = this.clampToStops(this.cageMm);
    this.pulleyMm = this.cageMm + hangerErrorMm(this.condition, this.cageMm) + flexMm;
  }

  private stepServo(dtS: number): void {
    // Servos are made to go a little too far inboard and come back.
    this.overtravelLeftS -= dtS;
    const over = this.overtravelLeftS > 0 ? Math.max(0, this.overtravelMm) : 0;
    const target = this.placeMm(this.commanded) + over;
    this.cageMm += clamp(target - this.cageMm, SERVO_SPEED_MMPS * dtS);
  }

  private stepCable(dtS: number, shake: number): void {
    this.overtravelLeftS -= dtS;
    const aim = this.detentMm(this.commanded) + (this.overtravelLeftS > 0 ? this.overtravelMm : 0);
    const speed = aim > this.shifterMm ? PULL_SPEED_MMPS : RETURN_SPEED_MMPS * 2;
    this.shifterMm += clamp(aim - this.shifterMm, speed * dtS);
    const loosening = 1 - 0.45 * shake * this.random.uniform();
    const sliding = this.condition.frictionN * this.gripFactor * loosening;
    const breakaway = this.sticking ? sliding * STICTION_RATIO : sliding;
    const inboardRest = this.restingMm(-breakaway);
    const outboardRest = Math.max(this.restingMm(breakaway), (breakaway - SPRING_BASE_N) / SPRING_RATE_N_PER_MM);
    let goal = this.cageMm;
    if (this.cageMm < inboardRest) goal = this.restingMm(-sliding);
    else if (this.cageMm > outboardRest)
      goal = Math.max(this.restingMm(sliding), (sliding - SPRING_BASE_N) / SPRING_RATE_N_PER_MM);
    else if (this.sticking) goal += this.creepMm(dtS, shake);
    const move = clamp(goal - this.cageMm, (goal > this.cageMm ? PULL_SPEED_MMPS : RETURN_SPEED_MMPS) * dtS);
    this.cageMm += move;
    this.sticking = Math.abs(move) < STILL_MMPS * dtS;
  }

  /** How far a stuck cage creeps in one step towards where it belongs: the faster, the further it is off and the more the road shakes. */
  private creepMm(dtS: number, shake: number): number {
    const wayMm = this.restingMm(0) - this.cageMm;
    const speed = CREEP_MMPS * (0.2 + shake) * (1 + (3 * Math.abs(wayMm)) / this.condition.pitchMm);
    return clamp(wayMm, speed * dtS);
  }

  /** Where spring, cable pull and a drag of `dragN` (positive holds inboard) balance. */
  private restingMm(dragN: number): number {
    return (
      (CABLE_STIFFNESS_N_PER_MM * this.shifterMm - SPRING_BASE_N + dragN) /
      (CABLE_STIFFNESS_N_PER_MM + SPRING_RATE_N_PER_MM)
    );
  }

  /** The shifter's end of the cable at a detent, as sideways travel, so that a sound cable rests the pulley under the cog. */
  private detentMm(cog: number): number {
    const place = this.placeMm(cog);
    return place + (SPRING_BASE_N + SPRING_RATE_N_PER_MM * place) / CABLE_STIFFNESS_N_PER_MM;
  }

  /** Where the setting asks the cage to stand for a cog; for the smallest a little beyond it, so that the stop decides. */
  private placeMm(cog: number): number {
    const beyond = cog === 0 ? this.condition.slackMm : 0;
    return cog * this.condition.pitchMm + this.condition.offsetMm + this.seatMm - beyond;
  }

  private clampToStops(placeMm: number): number {
    const { highStopMm, lowStopMm, pitchMm, cogs } = this.condition;
    return Math.max(highStopMm, Math.min((cogs - 1) * pitchMm + lowStopMm, placeMm));
  }
}

const clamp = (value: number, limit: number): number => Math.max(-limit, Math.min(limit, value));
