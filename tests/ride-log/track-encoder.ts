/** A point of a track: its time as written, and whatever else stands within it. */
export interface TrackPoint {
  readonly time: string;
  readonly lat?: number;
  readonly lon?: number;
  readonly inside?: string;
}

/** Writes a TCX file of one activity, one lap, one track. */
export const tcx = (points: readonly TrackPoint[], sport = 'Biking', attributes = ' xmlns="made-up"'): string =>
  `<?xml version="1.0" encoding="UTF-8"?>
<TrainingCenterDatabase${attributes}><Activities><Activity Sport="${sport}"><Notes>x-note</Notes><Lap><Track>
${points.map(({ time, inside = '' }) => `<Trackpoint><Time>${time}</Time>${inside}</Trackpoint>`).join('\n')}
</Track></Lap></Activity></Activities></TrainingCenterDatabase>`;

/** Writes a GPX file of one track, one segment. */
export const gpx = (points: readonly TrackPoint[], type = 'Biking', attributes = ' xmlns="made-up"'): string =>
  `<?xml version="1.0" encoding="UTF-8"?>
<gpx version="1.1"${attributes}><trk><name>x-note</name><type>${type}</type><trkseg>
${points
  .map(
    ({ time, lat = 10, lon = 20, inside = '' }) =>
      `<trkpt lat="${lat}" lon="${lon}"><time>${time}</time>${inside}</trkpt>`,
  )
  .join('\n')}
</trkseg></trk></gpx>`;
