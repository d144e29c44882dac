import type { Warning } from '../../errors/warning.ts';
import { listed } from '../../numeric/listed.ts';
import { sinceStart } from '../../numeric/since-start.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';

/** Code of the warning that the cadence is missing for a while. */
export const cadenceMissing = 'cadence-missing';
/** Faster than this the bike is ridden, m/s. */
const RIDDEN_MPS = 2;
/** Legs that work so hard turn, W. */
const WORKING_W = 50;
/** Shorter gaps are not worth a word, s; and no record stands for more than so much of one, s. */
const LEAST_S = 300;
const MOST_STEP_S = 5;

/** A gap of the cadence, s since the ride's start. */
interface Gap {
  readonly fromS: number;
  readonly toS: number;
}

/** Where the bike was ridden for minutes and no cadence recorded, or one of 0 beside the power of legs that turn. */
export function cadenceGaps({ timeS, speedMps, cadenceRpm, powerW }: RideLog): Gap[] {
  const gaps: Gap[] = [];
  let [fromS, toS, riddenS] = [Number.NaN, Number.NaN, 0];
  const close = (): void => {
    if (riddenS >= LEAST_S) gaps.push({ fromS, toS });
    riddenS = 0;
  };
  for (let i = 0; i < timeS.length; i++) {
    if (cadenceRpm[i] > 0) close();
    else if (speedMps[i] > RIDDEN_MPS && (Number.isNaN(cadenceRpm[i]) || powerW[i] > WORKING_W)) {
      if (riddenS === 0) fromS = timeS[i];
      toS = timeS[i];
      riddenS += Math.min(MOST_STEP_S, timeS[i] - (timeS[i - 1] ?? timeS[i]));
    }
  }
  close();
  return gaps;
}

/** Says where the cadence is missing; null where it is not, and where the ride has none at all. */
export function cadenceGapsWarning(log: RideLog): Warning | null {
  const gaps = cadenceGaps(log);
  if (gaps.length === 0 || !log.cadenceRpm.some((rpm) => rpm > 0)) return null;
  const when = listed(gaps.map(({ fromS, toS }) => `from ${sinceStart(fromS)} to ${sinceStart(toS)}`));
  return {
    code: cadenceMissing,
    message: `No cadence was recorded ${when} (time since the start), though the bike was ridden: shifts made then are not judged. Look at the battery and the seat of the cadence sensor.`,
  };
}
