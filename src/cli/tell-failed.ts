import { counted } from '../numeric/counted.ts';
import type { FailedRide } from '../report/report-schema.ts';
import { writeNote } from './output.ts';

/** So many files that were counted as others are named one by one; of more the first stands for all. */
const MOST_NAMED = 3;

/** Says which files were left out, a line each; many that hold the same rides as others in one line, since there is nothing to do about them. */
export function tellFailed(failed: readonly FailedRide[]): void {
  const copies = failed.filter(({ code }) => code === 'duplicate');
  const many = copies.length > MOST_NAMED;
  for (const { code, message } of failed) if (!many || code !== 'duplicate') writeNote(`cogwright: ${message}`);
  if (many)
    writeNote(
      `cogwright: ${counted(copies.length, 'file')} hold rides that other files hold too, and count once; the report names them all. The first: ${copies[0].message}`,
    );
}
