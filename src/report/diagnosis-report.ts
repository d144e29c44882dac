import type { Diagnosis, Estimate } from '../diagnosis/diagnosis.ts';
import type { DiagnosisReport } from './diagnosis-report-schema.ts';
import type { HeldBack } from './held/held-back.ts';
import { roundTo } from './round-to.ts';

/**
 * The verdict's part of the report. Probabilities of the causes are not rounded, so that they still sum to 1;
 * sizes are rounded to a hundredth.
 */
export function diagnosisReport(diagnosis: Diagnosis, held: HeldBack | null): DiagnosisReport {
  const { onset, riderPart, checkRide, separates, undecided, suggestion, clicks } = diagnosis;
  const rate = (value: number | null): number | null => (value === null ? null : roundTo(value, 4));
  return {
    causes: diagnosis.causes.map((verdict) => ({ ...verdict, evidence: [...verdict.evidence] })),
    weighed: { ...diagnosis.weighed, pedallingHours: roundTo(diagnosis.weighed.pedallingHours, 2) },
    lateralOffsetMm: rounded(diagnosis.lateralOffsetMm),
    lateralErrorMm: diagnosis.lateralErrorMm.map((error) => ({ teeth: error.teeth, ...rounded(error) })),
    clicks: { parameter: clicks.parameter, unit: clicks.unit, ...rounded(clicks) },
    onset: { ...onset, probability: roundTo(onset.probability, 4) },
    riderPart: {
      ...riderPart,
      probability: roundTo(riderPart.probability, 4),
      troubleRateLowTorque: rate(riderPart.troubleRateLowTorque),
      troubleRateHighTorque: rate(riderPart.troubleRateHighTorque),
    },
    separates: separates && { ...separates, between: [...separates.between] },
    undecided: undecided && {
      ...undecided,
      between: [...undecided.between],
      becauseOf: [...undecided.becauseOf],
    },
    checkRide: {
      blocks: checkRide.blocks.map((block) => ({ ...block })),
      sentences: [...checkRide.sentences],
      expectedBits: roundTo(checkRide.expectedBits, 3),
      ordinaryBits: roundTo(checkRide.ordinaryBits, 3),
    },
    unexplained: diagnosis.unexplained && {
      ...diagnosis.unexplained,
      places: diagnosis.unexplained.places.map((place) => ({ ...place, foretold: roundTo(place.foretold, 2) })),
    },
    now: { ...diagnosis.now, keepOff: [...diagnosis.now.keepOff], pastTheMark: roundTo(diagnosis.now.pastTheMark, 4) },
    stillThere: roundTo(diagnosis.stillThere, 4),
    limitOrHanger: diagnosis.limitOrHanger,
    cured: diagnosis.cured,
    shiftsWellSince: diagnosis.shiftsWellSince && {
      ...diagnosis.shiftsWellSince,
      there: { ...diagnosis.shiftsWellSince.there },
    },
    heldBack: held && { code: held.code, headline: held.headline, sentence: held.sentence },
    notes: [...diagnosis.notes],
    suggestion: {
      ...suggestion,
      sense: suggestion.sense ?? null,
      steps: [...suggestion.steps],
      cautions: [...suggestion.cautions],
    },
  };
}

function rounded(estimate: Estimate): Estimate {
  return { mean: roundTo(estimate.mean, 2), low: roundTo(estimate.low, 2), high: roundTo(estimate.high, 2) };
}
