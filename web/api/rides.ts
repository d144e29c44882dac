import type { DropSide } from '../../src/shifts/ride-events.ts';
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
export const judge = (rideId: string, eventKey: string, verdict: Exclude<Verdict, 'told'>): Promise<unknown> =>
  request(path(rideId, `/judgements/${encodeURIComponent(eventKey)}`), { method: 'PUT', body: { verdict } });

/** Tells of a lost chain, and where it went, or of a skip that the log does not show. */
export const tellEvent = (rideId: string, eventKey: string, side: DropSide | undefined): Promise<unknown> =>
  request(path(rideId, `/told/${encodeURIComponent(eventKey)}`), { method: 'PUT', body: side ? { side } : {} });

/** Takes back what was said of an event. */
export const withdrawJudgement = (rideId: string, eventKey: string): Promise<void> =>
  request(path(rideId, `/judgements/${encodeURIComponent(eventKey)}`), { method: 'DELETE' });
