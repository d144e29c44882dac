import { type WorkDone, workUnits } from '../setting/work-done.ts';

/** Work with the moment it was done, as a rider's adjustments file. */
export function adjustmentsCsv(work: readonly (WorkDone & { readonly atMs: number })[]): string {
  const quoted = (text: string): string => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
  const rows = work.map(({ atMs, parameter, amount, note }) =>
    [
      new Date(atMs).toISOString().replace('.000', ''),
      parameter,
      amount ?? '',
      workUnits[parameter],
      quoted(note ?? ''),
    ].join(','),
  );
  return `${['at,parameter,amount,unit,note', ...rows].join('\n')}\n`;
}
