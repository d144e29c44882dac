import type { RideColumns, RideDetail, RideSummary, Verdict } from './answers.ts';
import { request } from './request.ts';

const path = (rideId: string, rest = ''): string => `/rides/${encodeURIComponent(rideId)}${rest}`;

export const listRides = (bikeId: string, signal?: AbortSignal): Promise<{ rides: RideSummary[] }> =>
  request(`/rides?bike=${encodeURIComponent(bikeId)}`, { signal });

export const getRide = (rideId: string, signal?: AbortSignal): Promise<RideDetail> => request(path(rideId), { signal });

export const getColumns = (rideId: string, signal?: AbortSignal): Promise<RideColumns> =>
  request(path(rideId, '/columns'), { signal });

export const removeRide = (rideId: string): Promise<void> => request(path(rideId), { method: 'DELETE' });

/** Gives a ride to another bike. */
export const moveRide = (rideId: string, bikeId: string): Promise<unknown> =>
  request(path(rideId), { method: 'PUT', body: { bikeId } });

/** Address of the file as it was added. */
export const rideFileAddress = (rideId: string): string => `/api${path(rideId, '/file')}`;

export const judge = (rideId: string, eventKey: string, verdict: Verdict): Promise<unknown> =>
  request(path(rideId, `/judgements/${encodeURIComponent(eventKey)}`), { method: 'PUT', body: { verdict } });

export const withdrawJudgement = (rideId: string, eventKey: string): Promise<void> =>
  request(path(rideId, `/judgements/${encodeURIComponent(eventKey)}`), { method: 'DELETE' });
