import type { Warning } from '../../errors/warning.ts';
import { listed } from '../../numeric/listed.ts';
import { sinceStart } from '../../numeric/since-start.ts';
import type { SpeedSource } from '../../ride-log/ride-log.ts';
import type { UnsteadySpell } from './unsteady-spells.ts';

/** Code of the warning that a ride's speed drifted for a while. */
export const speedUnsteady = 'speed-unsteady';

/** The spells are told one by one up to so many, the longest ones. */
const TOLD = 5;

/**
 * Says where a ride's speed drifted, by the time since its start; null where it did not. Only a log that says so holds a
 * satellite speed for sure: any other may be that of a wheel sensor, with legs that drive on and off.
 */
export function unsteadyWarning(spells: readonly UnsteadySpell[], source: SpeedSource): Warning | null {
  if (spells.length === 0) return null;
  const longest = [...spells].sort((a, b) => b.toS - b.fromS - (a.toS - a.fromS)).slice(0, TOLD);
  const told = longest
    .sort((a, b) => a.fromS - b.fromS)
    .map(({ fromS, toS }) => `from ${sinceStart(fromS)} to ${sinceStart(toS)}`);
  const more = spells.length > TOLD ? `, and ${spells.length - TOLD} times more for a shorter while` : '';
  const when = `${listed(told)} after the start${more}`;
  return {
    code: speedUnsteady,
    message: source === 'satellite' || source === 'positions' ? satellite(when) : otherSource(when),
  };
}

const satellite = (when: string): string =>
  `The speed drifts ${when}, as it does where a receiver loses its satellites: no gear is held there that the bike has. Shifts made then are not judged. A speed sensor on the wheel does not drift.`;
const otherSource = (when: string): string =>
  `Speed and cadence hold no gear that the bike has ${when}: the speed drifts there, as it does where a receiver loses its satellites, or the legs drive on and off. Shifts made then are not judged.`;
