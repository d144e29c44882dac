/** Rounds to a number of decimals. NaN stays NaN. */
export function roundTo(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.round(value * scale) / scale;
}

/** The same for JSON: null for NaN and infinities. */
export function roundOrNull(value: number, decimals: number): number | null {
  return Number.isFinite(value) ? roundTo(value, decimals) : null;
}
