import { countedElsewhere } from '../ride-log/counted-elsewhere.ts';
import { duplicateRide } from '../ride-log/duplicate-ride.ts';
import { isPartOfRide } from '../ride-log/part-of-ride.ts';
import type { ReadRides } from './read-rides.ts';

/** Leaves out rides that are a stretch of another, as a copy that was cut or written in another format is: their shifts count once. */
export function leaveOutParts({ logs, failed }: ReadRides): ReadRides {
  const longestFirst = [...logs].sort((a, b) => b.timeS.length - a.timeS.length);
  const wholes = countedElsewhere(logs, (log) =>
    longestFirst.filter((other) => other !== log && isPartOfRide(log, other)),
  );
  const parts = [...wholes].map(([{ file }, whole]) => {
    const { code, message } = duplicateRide(file, whole.file);
    return { file, code, message };
  });
  return { logs: logs.filter((log) => !wholes.has(log)), failed: [...failed, ...parts] };
}
