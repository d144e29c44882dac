/**
 * The number that a cell holds; NaN where it holds none. Hexadecimal and Infinity are none.
 *
 * @example csvNumber('4,197', true) // 4.197
 */
export function csvNumber(cell: string, decimalComma: boolean): number {
  const text = decimalComma ? cell.replace(',', '.') : cell;
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d{1,3})?$/i.test(text) ? Number(text) : NaN;
  return Number.isFinite(value) ? value : NaN;
}
