import type { RideLog } from '../../ride-log/ride-log.ts';

const database = 'http://www.garmin.com/xmlschemas/TrainingCenterDatabase/v2';
const extension = 'http://www.garmin.com/xmlschemas/ActivityExtension/v2';

/** A ride as TCX with its activity extension (speed and watts). The format knows no gears. */
export function tcxBytes(log: RideLog): Uint8Array {
  const time = (timeS: number): string => new Date(log.startMs + Math.floor(timeS) * 1000).toISOString();
  const element = (name: string, value: number, digits: number): string =>
    Number.isNaN(value) ? '' : `<${name}>${value.toFixed(digits)}</${name}>`;
  const points = Array.from(log.timeS, (timeS, i) => {
    const extra = element('Speed', log.speedMps[i], 3) + element('Watts', log.powerW[i], 0);
    return [
      `<Trackpoint><Time>${time(timeS)}</Time>`,
      element('DistanceMeters', log.distanceM[i], 2),
      element('Cadence', Math.min(254, log.cadenceRpm[i]), 0),
      extra ? `<Extensions><TPX xmlns="${extension}">${extra}</TPX></Extensions>` : '',
      '</Trackpoint>',
    ].join('');
  });
  const text = `<?xml version="1.0" encoding="UTF-8"?>
<TrainingCenterDatabase xmlns="${database}">
<Activities><Activity Sport="Biking"><Id>${time(0)}</Id>
<Lap StartTime="${time(0)}"><TotalTimeSeconds>${log.timeS.length}</TotalTimeSeconds><DistanceMeters>${(log.distanceM.at(-1) ?? 0).toFixed(2)}</DistanceMeters><Calories>0</Calories><Intensity>Active</Intensity><TriggerMethod>Manual</TriggerMethod><Track>
${points.join('\n')}
</Track></Lap></Activity></Activities></TrainingCenterDatabase>
`;
  return new TextEncoder().encode(text);
}
