/**
 * The transpose of a square matrix, row after row.
 *
 * @example transpose(Float64Array.of(1, 2, 3, 4), 2) // 1, 3, 2, 4
 */
export function transpose(matrix: Float64Array, size: number): Float64Array {
  return matrix.map((_, i) => matrix[(i % size) * size + Math.floor(i / size)]);
}
