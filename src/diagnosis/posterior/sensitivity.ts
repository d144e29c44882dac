import { type AssumptionName, assumptions } from '../assumptions.ts';
import { type Cause, causes } from '../causes.ts';
import { assumptionNames } from '../imagined-bike/draw.ts';
import { type CauseProbabilities, heldProbability, type PosteriorVariation, posterior } from './posterior.ts';
import type { WeighedCauses } from './weigh-causes.ts';

/** One thing taken for granted, moved to an end of its plausible range, and the cause that is then likeliest. */
export interface VariedVerdict {
  readonly meaning: string;
  readonly top: Cause;
  readonly probabilities: CauseProbabilities;
}

/** The cause that is likeliest. */
export function likeliest(probabilities: CauseProbabilities): Cause {
  return causes[probabilities.indexOf(Math.max(...probabilities))];
}

/** Guides disagree on which fault is common: a prior may be this many times off. */
const PRIOR_DOUBT = 2;
/** Power of the likelihood where many alike shifts count for less than they are taken to. An assumption of ours. */
const LESS_EVIDENCE = 0.6;
/** A part of an assumption's range that the rides themselves speak against this much is no longer plausible. */
const RULED_OUT = 0.08;
/** Sizes that only matter where something was adjusted. */
const onlyWithAdjustments: readonly AssumptionName[] = [
  'clickMm',
  'stepMm',
  'limitTurnMm',
  'gapTurn',
  'toleranceShare',
];

/** Sizes of what only one kind of actuation has. */
const onlyCable: readonly AssumptionName[] = ['clickMm'];
const onlyElectronic: readonly AssumptionName[] = ['stepMm'];

function variations(
  [top, second]: readonly [Cause, Cause],
  adjusted: boolean,
  electronic: boolean,
): { meaning: string; variation: PosteriorVariation }[] {
  const held = assumptionNames
    .filter((name) => adjusted || !onlyWithAdjustments.includes(name))
    .filter((name) => !(electronic ? onlyCable : onlyElectronic).includes(name))
    .flatMap((name) =>
      [
        [0, 1 / 3],
        [2 / 3, 1],
      ].map(([from, to]) => ({ meaning: assumptions[name].meaning, variation: { held: { name, from, to } } })),
    );
  return [
    ...held,
    {
      meaning: 'how common each fault is taken to be',
      variation: { priorFactor: { [top]: 1 / Math.sqrt(PRIOR_DOUBT), [second]: Math.sqrt(PRIOR_DOUBT) } },
    },
    { meaning: 'how much many alike shifts count', variation: { evidencePower: LESS_EVIDENCE } },
  ];
}

/** The verdict with each assumption moved to either end of its range, as far as the rides leave that end plausible. */
export function varyAssumptions(weighed: WeighedCauses, probabilities: CauseProbabilities): VariedVerdict[] {
  const top = likeliest(probabilities);
  const second = likeliest(probabilities.map((p, i) => (causes[i] === top ? 0 : p)));
  return variations([top, second], weighed.model.evidence.groups.length > 0, weighed.model.bike.electronic)
    .filter(({ variation: { held } }) => !held || heldProbability(weighed, held) > RULED_OUT)
    .map(({ meaning, variation }) => {
      const varied = posterior(weighed, variation);
      return { meaning, top: likeliest(varied), probabilities: varied };
    });
}
