import type { Adjustment, Bike, BikeDetail, BikeSummary, SheetData } from './answers.ts';
import { request } from './request.ts';

const path = (bikeId: string, rest = ''): string => `/bikes/${encodeURIComponent(bikeId)}${rest}`;

export const listBikes = (signal?: AbortSignal): Promise<{ bikes: BikeSummary[] }> => request('/bikes', { signal });

export const getBike = (bikeId: string, signal?: AbortSignal): Promise<BikeDetail> => request(path(bikeId), { signal });

export const createBike = (bike: Bike): Promise<BikeDetail> => request('/bikes', { method: 'POST', body: bike });

export const changeBike = (bikeId: string, bike: Bike): Promise<unknown> =>
  request(path(bikeId), { method: 'PUT', body: bike });

/** Removes a bike that has no rides; the server refuses where it has. */
export const removeEmptyBike = (bikeId: string): Promise<void> => request(path(bikeId), { method: 'DELETE' });

/** Removes a bike and all its rides. */
export const removeBike = (bikeId: string): Promise<void> =>
  request(path(bikeId, '?withRides=true'), { method: 'DELETE' });

export const getSheet = (bikeId: string, signal?: AbortSignal): Promise<SheetData> =>
  request(path(bikeId, '/sheet'), { signal });

export const addAdjustment = (bikeId: string, adjustment: Adjustment): Promise<unknown> =>
  request(path(bikeId, '/adjustments'), { method: 'POST', body: adjustment });

export const changeAdjustment = (bikeId: string, id: string, adjustment: Adjustment): Promise<unknown> =>
  request(path(bikeId, `/adjustments/${encodeURIComponent(id)}`), { method: 'PUT', body: adjustment });

export const removeAdjustment = (bikeId: string, id: string): Promise<void> =>
  request(path(bikeId, `/adjustments/${encodeURIComponent(id)}`), { method: 'DELETE' });
