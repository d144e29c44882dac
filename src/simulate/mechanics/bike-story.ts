import { seededRandom } from '../../numeric/seeded-random.ts';
import type { FaultCause } from '../setting/fault-causes.ts';
import type { ResolvedOptions } from '../setting/resolve-options.ts';
import type { WorkDone, WorkParameter } from '../setting/work-done.ts';
import { type BikeCondition, soundCondition } from './bike-condition.ts';
import { doWork } from './do-work.ts';
import { recentringMm } from './hanger.ts';
import { type FaultSize, imposeFault } from './impose-fault.ts';

/** The part whose renewal ends a fault for good; faults of settings are ended by turning them back. */
const curedBy: Partial<Record<FaultCause, WorkParameter>> = {
  'hanger-bent': 'hanger',
  'cable-friction': 'cable-and-housing',
  'worn-drivetrain': 'cassette',
};

/** One bike's life over its rides: sound, then mis-set, then worked upon. */
export class BikeStory {
  private readonly severity: number;
  private readonly inward: boolean;
  private readonly recentredPart: number;
  readonly work: readonly WorkDone[];

  constructor(private readonly options: ResolvedOptions) {
    const random = seededRandom(options.seed, 'story');
    // The same name of severity is a little different on every bike.
    this.severity = Math.max(0, Math.min(1, options.severity + 0.06 * random.normal()));
    this.inward = random.chance(0.8);
    this.recentredPart = random.between(0.85, 1.15);
    this.work = typeof options.work === 'string' ? this.plannedWork(options.work) : options.work;
  }

  /** How much of the fault is there, 0 to 1. */
  levelAt(ride: number, timeS: number): number {
    const { onset, durationS, rides, cause } = this.options;
    const cure = curedBy[cause];
    if (cure && this.work.some((done) => done.parameter === cure && done.afterRide <= ride)) return 0;
    const at = ride + Math.min(timeS, durationS - 1) / durationS;
    if (onset === 'from-start') return 1;
    if (onset === 'gradual') return Math.min(1, at / rides);
    return at >= onset.atRide ? 1 : 0;
  }

  /** Second of a ride at which a sudden fault sets in; null where none does. */
  onsetWithin(ride: number): number | null {
    const { onset, durationS } = this.options;
    if (typeof onset !== 'object') return null;
    const timeS = (onset.atRide - ride) * durationS;
    return timeS >= 0 && timeS < durationS ? timeS : null;
  }

  /** The bike's condition at a moment, with the fault's size. A fresh object each time. */
  conditionAt(ride: number, timeS: number): { condition: BikeCondition; fault: FaultSize } {
    return this.build(ride, this.levelAt(ride, timeS), this.work);
  }

  private build(
    ride: number,
    level: number,
    work: readonly WorkDone[],
  ): { condition: BikeCondition; fault: FaultSize } {
    const { options } = this;
    const sound = soundCondition(options.bike, seededRandom(options.seed, 'bike'));
    const condition = soundCondition(options.bike, seededRandom(options.seed, 'bike'));
    const fault = imposeFault(condition, options.cause, this.severity, level, this.inward);
    if (options.cause === 'hanger-bent' && level > 0)
      condition.recentredMm = this.recentredPart * recentringMm(condition);
    for (const done of work) if (done.afterRide <= ride) doWork(condition, sound, done);
    return { condition, fault };
  }

  private plannedWork(kind: 'cure' | 'wrong'): WorkDone[] {
    const afterRide = Math.max(1, Math.floor(this.options.rides / 2));
    const { condition, fault } = this.build(afterRide - 1, this.levelBefore(afterRide), []);
    if (kind === 'wrong') return [wrongWork(this.options, afterRide)];
    return rightWork(this.options.cause, condition, fault, this.options.bike.actuation === 'electronic', afterRide);
  }

  private levelBefore(afterRide: number): number {
    const { onset, rides } = this.options;
    if (onset === 'from-start') return 1;
    return onset === 'gradual' ? afterRide / rides : afterRide > onset.atRide ? 1 : 0;
  }
}

function rightWork(
  cause: FaultCause,
  condition: BikeCondition,
  fault: FaultSize,
  electronic: boolean,
  afterRide: number,
): WorkDone[] {
  const half = (amount: number): number => Math.round(amount * 4) / 4;
  const done = (parameter: WorkParameter, amount: number | null): WorkDone[] => [{ afterRide, parameter, amount }];
  switch (cause) {
    case 'no-fault':
      return [];
    case 'cable-tension-low':
    case 'cable-tension-high':
      return done(electronic ? 'index-offset' : 'cable-tension', Math.round(-fault.size / condition.clickMm));
    case 'low-limit-tight':
    case 'low-limit-loose':
      return done('low-limit', half(fault.size / condition.stopTurnMm));
    case 'high-limit-tight':
    case 'high-limit-loose':
      return done('high-limit', half(-fault.size / condition.stopTurnMm));
    case 'pulley-gap-small':
    case 'pulley-gap-large':
      return done('pulley-gap', half(-fault.size / condition.gapTurnMm));
    case 'hanger-bent':
      return done('hanger', null);
    case 'cable-friction':
      return done('cable-and-housing', null);
    case 'worn-drivetrain':
      return [...done('chain', null), ...done('cassette', null)];
  }
}

/** Something a rider might try that has nothing to do with the cause. */
function wrongWork(options: ResolvedOptions, afterRide: number): WorkDone {
  const random = seededRandom(options.seed, 'wrong-work');
  const electronic = options.bike.actuation === 'electronic';
  const tension = { parameter: electronic ? 'index-offset' : 'cable-tension', amount: random.pick([-1, 1]) } as const;
  const limit = { parameter: random.pick(['low-limit', 'high-limit'] as const), amount: -0.25 } as const;
  const gap = { parameter: 'pulley-gap', amount: random.pick([-0.5, 0.5]) } as const;
  const { cause } = options;
  if (cause.startsWith('cable-tension')) return { afterRide, ...gap };
  if (cause.includes('limit')) return { afterRide, ...random.pick([tension, gap]) };
  if (cause.startsWith('pulley-gap')) return { afterRide, ...random.pick([tension, limit]) };
  return { afterRide, ...random.pick([tension, limit, gap]) };
}
