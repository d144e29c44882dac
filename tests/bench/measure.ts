/** Runs `work` once cold and `times` times warm, and prints both times and the process's peak memory so far. */
export function measure(label: string, work: () => unknown, times = 5): void {
  const cold = elapsedMs(work);
  const warm = Array.from({ length: times }, () => elapsedMs(work)).sort((a, b) => a - b);
  const median = times > 0 ? `${warm[times >> 1].toFixed(1)} ms warm (median of ${times}), ` : '';
  console.log(`  ${label}: ${median}${cold.toFixed(1)} ms cold, peak memory ${peakMb()} MB`);
}

/** Peak memory of this process so far, MB, the machine's own count. */
export const peakMb = (): number => Math.round(process.resourceUsage().maxRSS / 1024);

function elapsedMs(work: () => unknown): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}
