import type { Bike } from '../drivetrain/bike.ts';
import type { Warning } from '../errors/warning.ts';
import type { RideLog } from '../ride-log/ride-log.ts';
import type { MeasuredTeeth } from './measure-teeth.ts';

const ROLLOUT_TOLERANCE = 0.03;

/** Says where the records, the bike file and the ride disagree about teeth or rollout. */
export function gearWarnings(
  log: RideLog,
  bike: Bike,
  measured: MeasuredTeeth,
  rolloutMm: number,
  writtenMm: number,
): Warning[] {
  const warnings: Warning[] = [];
  if (!Number.isNaN(writtenMm) && Math.abs(Math.log(rolloutMm / writtenMm)) > ROLLOUT_TOLERANCE)
    warnings.push({
      code: 'rollout-differs',
      message: `The ride shows a rollout of ${rolloutMm.toFixed(0)} mm with the given teeth, the bike file says ${writtenMm.toFixed(0)} mm: check wheel size, chainring and the device's wheel setting.`,
    });
  const differs = (written: readonly number[], shown: readonly (number | null)[]): string[] =>
    written.flatMap((teeth, i) =>
      shown[i] !== null && shown[i] !== teeth ? [`${teeth} (the ride shows ${shown[i]})`] : [],
    );
  const rings = differs(bike.chainrings, measured.chainrings);
  const cogs = differs(bike.cassette, measured.cassette);
  if (rings.length + cogs.length > 0)
    warnings.push({
      code: 'teeth-differ',
      message: `By the ride's speed and cadence some teeth are not as written: ${[
        rings.length > 0 ? `chainrings ${rings.join(', ')}` : '',
        cogs.length > 0 ? `cogs ${cogs.join(', ')}` : '',
      ]
        .filter(Boolean)
        .join('; ')}.`,
    });
  const unlisted = (recorded: Uint8Array, sizes: readonly number[]): number[] =>
    [...new Set(recorded)].filter((t) => t > 0 && !sizes.includes(t)).sort((a, b) => a - b);
  const odd = [
    ...unlisted(log.gearRecords.rearTeeth, bike.cassette),
    ...unlisted(log.gearRecords.frontTeeth, bike.chainrings),
  ];
  const byPosition = log.gearRecords.rearPosition.some((position) => position > 0);
  if (odd.length > 0)
    warnings.push({
      code: 'recorded-teeth-differ',
      message: `The gear records name teeth that the bike does not have (${odd.join(', ')}): they were read by their ${byPosition ? 'position' : 'order'}.`,
    });
  return warnings;
}
