import type { Diagnosis, Estimate } from '../diagnosis/diagnosis.ts';
import type { DiagnosisReport } from './diagnosis-report-schema.ts';
import type { HeldBack } from './held/held-back.ts';
import { roundTo } from './round-to.ts';

/**
 * The verdict's part of the report. Probabilities of the causes are not rounded, so that they still sum to 1;
 * sizes are rounded to a hundredth.
 */
export function diagnosisReport(diagnosis: Diagnosis, held: HeldBack | null): DiagnosisReport {
  const { riderPart, checkRide, separates, suggestion, clicks } = diagnosis;
  const rate = (value: number | null): number | null => (value === null ? null : roundTo(value, 4));
  return {
    ...weighedReport(diagnosis),
    lateralOffsetMm: rounded(diagnosis.lateralOffsetMm),
    lateralErrorMm: diagnosis.lateralErrorMm.map((error) => ({ teeth: error.teeth, ...rounded(error) })),
    clicks: { parameter: clicks.parameter, unit: clicks.unit, ...rounded(clicks) },
    riderPart: {
      ...riderPart,
      probability: roundTo(riderPart.probability, 4),
      troubleRateLowTorque: rate(riderPart.troubleRateLowTorque),
      troubleRateHighTorque: rate(riderPart.troubleRateHighTorque),
    },
    separates: separates && { ...separates, between: [...separates.between] },
    checkRide: {
      blocks: checkRide.blocks.map((block) => ({ ...block })),
      sentences: [...checkRide.sentences],
      expectedBits: roundTo(checkRide.expectedBits, 3),
      ordinaryBits: roundTo(checkRide.ordinaryBits, 3),
    },
    failsOnto: diagnosis.failsOnto,
    unexplained: diagnosis.unexplained && {
      ...diagnosis.unexplained,
      places: diagnosis.unexplained.places.map((place) => ({ ...place, foretold: roundTo(place.foretold, 2) })),
    },
    stillThere: roundTo(diagnosis.stillThere, 4),
    limitOrHanger: diagnosis.limitOrHanger,
    ...standsReport(diagnosis),
    heldBack: held && { code: held.code, headline: held.headline, sentence: held.sentence },
    notes: [...diagnosis.notes],
    suggestion: {
      ...suggestion,
      sense: suggestion.sense ?? null,
      steps: [...suggestion.steps],
      cautions: [...suggestion.cautions],
      cautionKinds: [...suggestion.cautionKinds],
    },
  };
}

/** How the bike stands after what was done, and what came after what was wrong at first. */
const standsReport = ({ now, anotherSince, laterCured, firstUntil, cured, shiftsWellSince }: Diagnosis) => ({
  now: {
    ...now,
    keepOff: [...now.keepOff],
    lookedOver: [...now.lookedOver],
    pastTheMark: roundTo(now.pastTheMark, 4),
  },
  anotherSince: anotherSince && weighedReport(anotherSince),
  laterCured: laterCured && { after: laterCured.after, ...weighedReport(laterCured) },
  firstUntil,
  cured,
  shiftsWellSince: shiftsWellSince && { ...shiftsWellSince, there: { ...shiftsWellSince.there } },
});

/** What a list of causes was weighed against, how the likeliest began and between which it is open. */
const weighedReport = ({
  causes,
  weighed,
  onset,
  undecided,
}: NonNullable<Diagnosis['anotherSince']>): NonNullable<DiagnosisReport['anotherSince']> => ({
  causes: causes.map((verdict) => ({ ...verdict, evidence: [...verdict.evidence] })),
  weighed: { ...weighed, pedallingHours: roundTo(weighed.pedallingHours, 2) },
  onset: { ...onset, probability: roundTo(onset.probability, 4) },
  undecided: undecided && {
    ...undecided,
    between: [...undecided.between],
    becauseOf: [...undecided.becauseOf],
  },
});

function rounded(estimate: Estimate): Estimate {
  return { mean: roundTo(estimate.mean, 2), low: roundTo(estimate.low, 2), high: roundTo(estimate.high, 2) };
}
