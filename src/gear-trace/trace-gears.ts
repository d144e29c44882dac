import type { Bike } from '../drivetrain/bike.ts';
import { bikeRolloutMm } from '../drivetrain/bike-rollout.ts';
import type { Warning } from '../errors/warning.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import { anotherBike } from './belonging/another-bike.ts';
import type { BikeRide } from './bike-ride.ts';
import { gearCommands } from './commands/gear-commands.ts';
import { earlier, lateRecordsWarning, recordsLateBy } from './commands/late-records.ts';
import { withoutStaleGears } from './commands/stale-gears.ts';
import { type DecodedGears, decodeGears } from './decoding/decode-gears.ts';
import { cadenceGapsWarning } from './disagreement/cadence-gaps.ts';
import { cogsOff } from './disagreement/cogs-off.ts';
import { gearWarnings } from './disagreement/gear-warnings.ts';
import { type MissingRecords, missingRecords, missingRecordsWarning } from './disagreement/missing-records.ts';
import { otherStepsWarning } from './disagreement/other-steps.ts';
import { isSpeedInMps } from './disagreement/rollout-warning.ts';
import { sparseWarning } from './disagreement/sparse-warning.ts';
import { twoCogsOfOneCount, twoCogsWarning } from './disagreement/two-cogs-one-count.ts';
import { type GearModel, usualNoise } from './gear-model.ts';
import { emptyTrace, type RideTrace } from './gear-trace.ts';
import { fitUncommandedGears } from './ladder/fit-uncommanded-gears.ts';
import { sharpestHistogram } from './ladder/sharpest-histogram.ts';
import { noiseAfterRest } from './levels/after-rest.ts';
import { decodedPeaks, peaksShown } from './levels/decoded-peaks.ts';
import { fitCommandedGears } from './levels/fit-commanded-gears.ts';
import { measureGears } from './levels/measure-gears.ts';
import { measureTeeth, noTeethShown } from './levels/measure-teeth.ts';
import { residualNoise } from './levels/residual-noise.ts';
import { littlePedalling } from './samples/little-pedalling.ts';
import { pedallingSamples } from './samples/pedalling-samples.ts';
import { settledSamples } from './samples/settled-samples.ts';
import { unsteadySpells } from './unsteady/unsteady-spells.ts';
import { unsteadyWarning } from './unsteady/unsteady-warning.ts';

/** A spread of the ratio wider than this parts no two cogs. */
const MAX_NOISE = 0.06;
/** Noise taken where too few settled records show it. */
const DEFAULT_NOISE = 0.015;

/** Works out where the chain was at each record of a ride on a bike: the stage's one entrance. */
export function traceGears(log: RideLog, bike: Bike): RideTrace {
  const samples = pedallingSamples(log);
  const written = gearCommands(log, bike, samples);
  const recordsLateS = recordsLateBy(log, bike, samples, written);
  const commands = recordsLateS > 0 ? earlier(written, recordsLateS, log.timeS) : written;
  const ride: BikeRide = { log, bike, samples, commands };
  const fitted = gearsShown(ride);
  const late = lateRecordsWarning(recordsLateS);
  if (!('code' in fitted)) return { ...decodedTrace(ride, fitted, late), recordsLateS };
  const warnings = [fitted, late, sparseWarning(samples), anotherBike(log, bike, null)];
  const seen = warnings.filter((warning) => warning !== null);
  return { ...emptyTrace(ride, namesCogs(ride) ? 'commands-only' : 'none', seen), recordsLateS };
}

/** Whether any gear record names a cog of the bike. */
const namesCogs = ({ commands: { timeS, cog } }: BikeRide): boolean => timeS.some((_, record) => cog[record] >= 0);

/** The trace of a ride whose gears show; they are fitted once more to what the first decoding is sure of. */
function decodedTrace(asRecorded: BikeRide, fitted: GearModel, late: Warning | null): Omit<RideTrace, 'recordsLateS'> {
  const asked = decodeGears(asRecorded, fitted);
  const missing = missingRecords(asRecorded, asked, fitted);
  const ride = withoutStale(asRecorded, missing);
  const { log, bike, samples, commands } = ride;
  const recorded = namesCogs(ride);
  const model = refit(ride, ride === asRecorded ? asked : decodeGears(ride, fitted), fitted, recorded);
  const decoded = decodeGears(ride, model);
  const writtenMm = bikeRolloutMm(bike);
  const rolloutMm = 1000 * Math.exp(model.logRollout);
  const unsteady = unsteadySpells(ride, decoded, model);
  const ofOneCount = twoCogsOfOneCount(ride, decoded);
  const { peaks, sharedErrorS } = peaksShown(log, samples, decoded, model);
  const measured = isSpeedInMps(rolloutMm, writtenMm)
    ? measureTeeth(peaks, bike, writtenMm / 1000, sharedErrorS)
    : noTeethShown(bike);
  return {
    ...decoded,
    commands,
    samples,
    model,
    gearSource: recorded ? 'recorded' : 'inferred',
    evidence: recorded ? 'full' : 'ratio-only',
    rolloutMm,
    measured: { chainrings: measured.chainrings, cassette: measured.cassette },
    cogsOff: recorded ? cogsOff(peaks, bike) : [],
    unsteady,
    ofOneCount,
    warnings: [
      ...[
        late,
        sparseWarning(samples),
        missingRecordsWarning(missing),
        cadenceGapsWarning(log),
        unsteadyWarning(unsteady, log.speedSource),
        recorded ? otherStepsWarning(log, peaks, bike, sharedErrorS) : null,
      ].filter((warning) => warning !== null),
      ...gearWarnings(log, bike, { measured, rolloutMm, drifts: unsteady.length > 0 }),
      ...twoCogsWarning(ofOneCount, bike.cassette),
    ],
  };
}

/** The ride with no gear known where records are missing. */
const withoutStale = (ride: BikeRide, missing: readonly MissingRecords[]): BikeRide =>
  missing.length === 0 ? ride : { ...ride, commands: withoutStaleGears(ride.commands, missing, ride.log.timeS) };

/** The ride's gears; where it shows none, the warning that says why. */
function gearsShown(ride: BikeRide): GearModel | Warning {
  const { log, samples } = ride;
  if (log.speedMps.every(Number.isNaN))
    return { code: 'no-speed', message: 'The ride holds no speed: where the chain was cannot be worked out.' };
  const little = littlePedalling(log, samples);
  if (little) return little;
  const fitted = fitGears(ride);
  if (typeof fitted === 'string') return { code: 'no-gear-bands', message: fitted };
  if (fitted.noise.relative > MAX_NOISE)
    return {
      code: 'no-gear-bands',
      message: `Speed over cadence spreads by ${(100 * fitted.noise.relative).toFixed(0)} % about each gear: it does not show which cog the chain was on.`,
    };
  return fitted;
}

/** The ride's gears, or in words why they cannot be fitted. */
function fitGears({ log, bike, samples, commands }: BikeRide): GearModel | string {
  const gears = { cogs: bike.cassette.length, rings: bike.chainrings.length };
  const measured = measureGears(log, samples, settledSamples(log, samples, commands, gears));
  const fitted = fitCommandedGears(measured.peaks, bike, {
    speedLagS: measured.speedLagS,
    noise: usualNoise(Number.isNaN(measured.noise) ? DEFAULT_NOISE : measured.noise),
  });
  if (fitted && log.speedSource !== 'computed') return fitted;
  const sharpest = sharpestHistogram(log, samples);
  if (sharpest.whyNone !== null) return sharpest.whyNone;
  return fitUncommandedGears(sharpest, bike, Math.log(bikeRolloutMm(bike) / 1000));
}

/** Fits the gears once more, to all seconds that the first decoding is sure of: far more than settled seconds after commands. */
function refit(ride: BikeRide, first: DecodedGears, fitted: GearModel, recorded: boolean): GearModel {
  const noise = residualNoise(ride.log, first, fitted);
  if (!recorded) return { ...fitted, noise };
  const peaks = decodedPeaks(first, fitted);
  const sensors = { speedLagS: fitted.speedLagS, noise: { ...noise, afterRest: noiseAfterRest(ride, first, fitted) } };
  return fitCommandedGears(peaks, ride.bike, sensors) ?? fitted;
}
