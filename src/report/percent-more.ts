/**
 * A log share as percent: by how much one is more than the other.
 *
 * @example percentMore(Math.log(1.4)) // 40
 */
export const percentMore = (logShare: number): number => 100 * Math.expm1(logShare);
