import type {
  Adjustment,
  Bike,
  BikeDetail,
  BikeSummary,
  LoggedAdjustment,
  SheetData,
  TakenAdjustments,
} from './answers.ts';
import { request } from './request.ts';

const path = (bikeId: string, rest = ''): string => `/bikes/${encodeURIComponent(bikeId)}${rest}`;

/** All bikes, as lists show them. */
export const listBikes = (signal?: AbortSignal): Promise<{ bikes: BikeSummary[] }> => request('/bikes', { signal });

/** A bike with its report in short. */
export const getBike = (bikeId: string, signal?: AbortSignal): Promise<BikeDetail> =>
  request(path(bikeId, '?events=false'), { signal });

/** Makes a bike. */
export const createBike = (bike: Bike): Promise<BikeDetail> => request('/bikes', { method: 'POST', body: bike });

/** The query of a change: where another version stands by now, the server refuses it. */
const from = ({ version }: { readonly version: string }): string => `?version=${encodeURIComponent(version)}`;

/** Changes a bike's drivetrain or name; its report is worked out anew. */
export const changeBike = (was: Pick<BikeDetail, 'id' | 'version'>, bike: Bike): Promise<unknown> =>
  request(path(was.id, from(was)), { method: 'PUT', body: bike });

/** Removes a bike that has no rides; the server refuses where it has. */
export const removeEmptyBike = (bikeId: string): Promise<void> => request(path(bikeId), { method: 'DELETE' });

/** Removes a bike and all its rides. */
export const removeBike = (bikeId: string): Promise<void> =>
  request(path(bikeId, '?withRides=true'), { method: 'DELETE' });

/** Sets a bike aside for the workshop, or changes what is said of that. */
export const setAside = (bikeId: string, mark: NonNullable<BikeDetail['workshopMark']>): Promise<unknown> =>
  request(path(bikeId, '/workshop-mark'), { method: 'PUT', body: mark });

/** Puts a bike back in use. */
export const putBackInUse = (bikeId: string): Promise<void> =>
  request(path(bikeId, '/workshop-mark'), { method: 'DELETE' });

/** What a bike's service sheet holds. */
export const getSheet = (bikeId: string, signal?: AbortSignal): Promise<SheetData> =>
  request(path(bikeId, '/sheet'), { signal });

/** Logs an adjustment. */
export const addAdjustment = (bikeId: string, adjustment: Adjustment): Promise<unknown> =>
  request(path(bikeId, '/adjustments'), { method: 'POST', body: adjustment });

/** Logs what stands in an adjustments file and is not in the log yet. */
export const addAdjustmentsFile = (bikeId: string, file: string, text: string): Promise<TakenAdjustments> =>
  request(path(bikeId, '/adjustments/file'), { method: 'POST', body: { file, text } });

/** Changes an adjustment that was logged. */
export const changeAdjustment = (bikeId: string, was: LoggedAdjustment, adjustment: Adjustment): Promise<unknown> =>
  request(path(bikeId, `/adjustments/${encodeURIComponent(was.id)}${from(was)}`), { method: 'PUT', body: adjustment });

/** Takes an adjustment out of the log. */
export const removeAdjustment = (bikeId: string, was: LoggedAdjustment): Promise<void> =>
  request(path(bikeId, `/adjustments/${encodeURIComponent(was.id)}${from(was)}`), { method: 'DELETE' });
