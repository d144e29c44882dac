const rideColumns = /(^|[,;\t"])(time_s|speed_mps|cadence_rpm|power_w|distance_m|front_teeth|rear_teeth)($|[,;\t"\s])/i;

/** True where the beginning of a file reads like a ride: FIT header, TCX or GPX root, a CSV header with a ride column. */
export function readsLikeRide(start: Buffer): boolean {
  if (start.subarray(8, 12).toString('latin1') === '.FIT') return true;
  const text = start.toString('latin1');
  if (/<(\w+:)?(TrainingCenterDatabase|gpx)[\s>]/.test(text)) return true;
  const firstLine = text.replace(/^(\u00EF\u00BB\u00BF|\s)+/, '').split(/\r?\n|\r/, 1)[0];
  return !/^[{[]/.test(firstLine) && rideColumns.test(firstLine);
}
