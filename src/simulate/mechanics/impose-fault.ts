import type { FaultCause } from '../setting/fault-causes.ts';
import type { BikeCondition } from './bike-condition.ts';

/** The parameter a fault mis-sets: its name, unit and size, as the truth file tells them. */
export interface FaultSize {
  readonly parameter: string;
  readonly unit: string;
  readonly size: number;
}

/** What a cause does to a bike. */
interface Fault {
  readonly parameter: string;
  readonly unit: string;
  /** Sizes at severity 0 and 1, in `unit`; in cog pitches where `inPitches`, so that narrow cassettes suffer alike. */
  readonly limits: readonly [number, number];
  readonly inPitches?: true;
  /** -1 where the cause makes the parameter smaller. */
  readonly sign: 1 | -1;
  /** Mis-sets the condition by a size, sign included. */
  readonly apply: (condition: BikeCondition, size: number) => void;
}

/** Adds the size to one parameter of the condition. */
const addTo =
  (parameter: 'offsetMm' | 'lowStopMm' | 'gapMm' | 'hangerBendRad' | 'frictionN') =>
  (condition: BikeCondition, size: number): void => {
    condition[parameter] += size;
  };

const offset = { parameter: 'offset', unit: 'mm', inPitches: true, apply: addTo('offsetMm') } as const;
const lowStop = { parameter: 'low-stop', unit: 'mm', inPitches: true, apply: addTo('lowStopMm') } as const;
const highStop = { parameter: 'high-stop', unit: 'mm', inPitches: true, apply: setHighStop } as const;
const gap = { parameter: 'gap', unit: 'mm', apply: addTo('gapMm') } as const;
const hanger = { parameter: 'hanger-bend', unit: 'rad', apply: addTo('hangerBendRad') } as const;
const friction = { parameter: 'friction', unit: 'N', apply: addTo('frictionN') } as const;
const wear = { parameter: 'wear', unit: 'fraction', apply: wearCogs } as const;

const faults: Record<FaultCause, Fault> = {
  'no-fault': { parameter: 'none', unit: 'mm', limits: [0, 0], sign: 1, apply: () => {} },
  'cable-tension-low': { ...offset, limits: [0.18, 0.35], sign: -1 },
  'cable-tension-high': { ...offset, limits: [0.19, 0.36], sign: 1 },
  'low-limit-tight': { ...lowStop, limits: [0.265, 0.39], sign: -1 },
  'low-limit-loose': { ...lowStop, limits: [0.27, 0.57], sign: 1 },
  'high-limit-tight': { ...highStop, limits: [0.32, 0.44], sign: 1 },
  'high-limit-loose': { ...highStop, limits: [0.3, 0.46], sign: -1 },
  'pulley-gap-small': { ...gap, limits: [4.5, 8], sign: -1 },
  'pulley-gap-large': { ...gap, limits: [8.7, 14.1], sign: 1 },
  'hanger-bent': { ...hanger, limits: [0.03, 0.085], sign: 1 },
  'cable-friction': { ...friction, limits: [7.1, 15.1], sign: 1 },
  'worn-drivetrain': { ...wear, limits: [0.45, 0.85], sign: 1 },
};

function setHighStop(condition: BikeCondition, size: number): void {
  condition.highStopMm += size;
  // A cable clamped while the stop stood too far out has that much slack on the smallest cog.
  if (size < 0) condition.slackMm -= size;
}

/** Wears the cogs that are ridden most, around the middle of the smaller half. `worst`: wear of the most worn, 0 to 1. */
function wearCogs(condition: BikeCondition, worst: number): void {
  const centre = 0.4 * (condition.cogs - 1);
  condition.wear.forEach((wear, cog) => {
    const share = Math.exp(-(((cog - centre) / (0.22 * condition.cogs)) ** 2));
    condition.wear[cog] = Math.min(1, wear + worst * share);
  });
}

/**
 * Mis-sets the condition by a cause. `level` 0 leaves the bike sound, 1 is the full size for the severity (onset lies
 * between). `inward` tells which way a hanger was bent. Returns what was mis-set and by how much.
 */
export function imposeFault(
  condition: BikeCondition,
  cause: FaultCause,
  severity: number,
  level: number,
  inward: boolean,
): FaultSize {
  const { parameter, unit, limits, inPitches, sign, apply } = faults[cause];
  const [least, most] = limits;
  const amount = (least + (most - least) * severity) * level * (inPitches ? condition.pitchMm : 1);
  const outward = cause === 'hanger-bent' && !inward;
  const size = (outward ? -sign : sign) * amount;
  apply(condition, size);
  return { parameter, unit, size };
}
