const rideColumns = /(^|[,;\t"])(time_s|speed_mps|cadence_rpm|power_w|distance_m|front_teeth|rear_teeth)($|[,;\t"\s])/i;

/** Each byte one character, so that no encoding is needed to find a header. */
const bytesAsText = (bytes: Uint8Array): string => new TextDecoder('latin1').decode(bytes);

/** True where the beginning of a file reads like a ride: FIT header, TCX or GPX root, a CSV header with a ride column. */
export function readsLikeRide(start: Uint8Array): boolean {
  if (bytesAsText(start.subarray(8, 12)) === '.FIT') return true;
  const text = bytesAsText(start);
  if (/<(\w+:)?(TrainingCenterDatabase|gpx)[\s>]/.test(text)) return true;
  const firstLine = text.replace(/^(\u00EF\u00BB\u00BF|\s)+/, '').split(/\r?\n|\r/, 1)[0];
  return !/^[{[]/.test(firstLine) && rideColumns.test(firstLine);
}
