/**
 * Share as whole percent; the ends are never rounded to sureness.
 *
 * @example percent(0.126) // '13 %'
 * @example percent(0.995) // 'over 99 %'
 */
export function percent(share: number): string {
  if (share >= 0.995 && share < 1) return 'over 99 %';
  if (share > 0 && share < 0.005) return 'under 1 %';
  return `${Math.round(share * 100)} %`;
}

/** A probability in percent, never rounded to certainty: `under 1 %`, `43 %`, `over 99 %`. */
export function chance(probability: number): string {
  return percent(Math.min(0.999, Math.max(0.001, probability)));
}
