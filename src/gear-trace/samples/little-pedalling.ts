import type { Warning } from '../../errors/warning.ts';
import type { RideLog } from '../../ride-log/ride-log.ts';
import { allPedalledSeconds, pedalledSeconds } from './pedalled-seconds.ts';
import type { PedallingSamples } from './pedalling-samples.ts';

/** Usable seconds below which a ride is not worth a trace. */
const MIN_USABLE_S = 120;
/** A cadence in a smaller share of the records than this is as good as none. */
const HARDLY_ANY = 0.1;

/**
 * Why a ride shows too few seconds of pedalling to tell where the chain was: it holds no cadence, the legs hardly turned, or most of their
 * seconds are none to go by (the bike hardly moves, or a recorder repeats a reading while its sensor is silent). Null where they are enough.
 */
export function littlePedalling({ cadenceRpm }: RideLog, samples: PedallingSamples): Warning | null {
  let usableS = 0;
  samples.usable.forEach((usable, i) => {
    if (usable) usableS += pedalledSeconds(samples, i);
  });
  if (usableS >= MIN_USABLE_S) return null;
  const needed = `${MIN_USABLE_S} s are needed to tell where the chain was`;
  const known = cadenceRpm.filter((rpm) => !Number.isNaN(rpm)).length;
  if (known < HARDLY_ANY * cadenceRpm.length)
    return {
      code: 'no-cadence',
      message: `The ride holds ${known === 0 ? 'no cadence' : `a cadence in ${known} of ${cadenceRpm.length} records only`}: where the chain was cannot be worked out.`,
    };
  const pedalledS = Math.round(allPedalledSeconds(samples));
  if (pedalledS < MIN_USABLE_S)
    return { code: 'too-little-pedalling', message: `The ride holds ${pedalledS} s of pedalling; ${needed}.` };
  return {
    code: 'few-sound-readings',
    message: `Of ${pedalledS} s of pedalling ${Math.round(usableS)} s hold a speed and a cadence that can be gone by; ${needed}. Readings at walking pace, and those that a recorder repeats while a sensor is silent, are not.`,
  };
}
