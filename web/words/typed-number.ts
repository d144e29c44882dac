/** A number as people type it, with a point or a comma before the decimals; NaN where the text is none. */
export function typedNumber(text: string): number {
  const trimmed = text.trim();
  return /^[+\-−]?(\d+([.,]\d*)?|[.,]\d+)$/.test(trimmed)
    ? Number(trimmed.replace(',', '.').replace('−', '-'))
    : Number.NaN;
}
