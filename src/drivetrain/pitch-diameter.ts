/** Pitch of a bicycle chain, mm (half an inch). */
const CHAIN_PITCH_MM = 12.7;

/**
 * Diameter of the circle through the chain's pins on a sprocket, mm: pitch / sin(pi / teeth).
 *
 * @example pitchDiameterMm(17) // 69.12
 */
export function pitchDiameterMm(teeth: number, pitchMm = CHAIN_PITCH_MM): number {
  return pitchMm / Math.sin(Math.PI / teeth);
}
