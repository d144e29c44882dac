import type { RideColumns, RideDetail, RideSummary, Verdict } from './answers.ts';
import { request } from './request.ts';

const path = (rideId: string, rest = ''): string => `/rides/${encodeURIComponent(rideId)}${rest}`;

/** The rides of a bike, the newest first; of very many only the newest, `total` says how many there are. */
export const listRides = (bikeId: string, signal?: AbortSignal): Promise<{ rides: RideSummary[]; total: number }> =>
  request(`/rides?bike=${encodeURIComponent(bikeId)}`, { signal });

/** A ride with its report. */
export const getRide = (rideId: string, signal?: AbortSignal): Promise<RideDetail> => request(path(rideId), { signal });

/** A ride's columns for the timeline. */
export const getColumns = (rideId: string, signal?: AbortSignal): Promise<RideColumns> =>
  request(path(rideId, '/columns'), { signal });

/** Removes a ride. */
export const removeRide = (rideId: string): Promise<void> => request(path(rideId), { method: 'DELETE' });

/** Gives a ride to another bike. */
export const moveRide = (rideId: string, bikeId: string): Promise<unknown> =>
  request(path(rideId), { method: 'PUT', body: { bikeId } });

/** Address of the file as it was added. */
export const rideFileAddress = (rideId: string): string => `/api${path(rideId, '/file')}`;

/** Says of an event that it was so, or that it was not. */
export const judge = (rideId: string, eventKey: string, verdict: Verdict): Promise<unknown> =>
  request(path(rideId, `/judgements/${encodeURIComponent(eventKey)}`), { method: 'PUT', body: { verdict } });

/** Takes back what was said of an event. */
export const withdrawJudgement = (rideId: string, eventKey: string): Promise<void> =>
  request(path(rideId, `/judgements/${encodeURIComponent(eventKey)}`), { method: 'DELETE' });
