/**
 * The second about which the timeline comes closer: the first of those wanted that is in view, so that it stays there; else the middle.
 *
 * @param inView first and last second in view
 */
export function zoomCentre([fromS, toS]: readonly [number, number], wanted: readonly (number | null)[]): number {
  return wanted.find((timeS): timeS is number => timeS !== null && timeS >= fromS && timeS <= toS) ?? (fromS + toS) / 2;
}
