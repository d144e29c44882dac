import type { Services } from '../services.ts';
import type { StoredRide } from '../store/ride-store.ts';

/** How far a ride has come: as it is stored, or that it is being analysed just now, which only the queue knows. */
export const rideStatus = (
  { id, status }: Pick<StoredRide, 'id' | 'status'>,
  queue: Services['queue'],
): StoredRide['status'] | 'analysing' => (status === 'queued' && queue.isAnalysing(id) ? 'analysing' : status);
