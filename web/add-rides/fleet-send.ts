import type { TakenRide, UploadAnswer } from '../api/answers.ts';
import { ApiError } from '../api/api-error.ts';
import { createBike, removeEmptyBike } from '../api/bikes.ts';
import { uploadRides } from '../api/uploads.ts';
import type { FleetBike } from './fleet.ts';
import { ridesElsewhere } from './rides-elsewhere.ts';
import { type SentAdjustments, sendAdjustments } from './send-adjustments.ts';

/** The server takes so many files in one upload. */
const MOST_AT_ONCE = 200;

const NOT_SENT_ELSEWHERE = 'Not taken in: the rides are on another bike already. Take it in on the page of that bike.';
const NOT_SENT_UNREADABLE =
  'Not taken in, since no bike was made for it. Choose the folder again with a ride that can be read, or without the rides.';

/** What became of a folder that was sent. */
export interface SentBike {
  /** Null where no bike was made, or none that would have stood empty was kept. */
  readonly bikeId: string | null;
  readonly uploadIds: readonly string[];
  readonly rides: readonly TakenRide[];
  readonly adjustments: readonly ({ readonly name: string } & SentAdjustments)[];
}

/** Refusals that are about what one folder holds; all others would meet the next one too. */
export const isAboutFolder = (error: unknown): error is ApiError =>
  error instanceof ApiError && [400, 404, 413, 422].includes(error.status);

/** Sends the rides of a bike. One that was made for them does not stay where the server took none of them before it refused. */
async function sendRides(bikeId: string, rides: readonly File[], isNew: boolean): Promise<UploadAnswer[]> {
  const uploads = [];
  try {
    for (let from = 0; from < rides.length; from += MOST_AT_ONCE)
      uploads.push(await uploadRides(bikeId, rides.slice(from, from + MOST_AT_ONCE)));
  } catch (error) {
    // the server keeps a bike that has rides
    if (isNew) await removeEmptyBike(bikeId).catch(() => undefined);
    throw error;
  }
  return uploads;
}

/**
 * Makes the bike of a folder where it is not here yet, and sends its rides and adjustments. A bike that was made for rides which all are on
 * another bike already, or cannot be read, is not kept: it would stand empty.
 *
 * @throws ApiError where the server refuses, or is not there
 */
export async function sendBike({ bike, here, rides, adjustments }: FleetBike): Promise<SentBike> {
  const bikeId = here?.id ?? (await createBike(bike)).id;
  const uploads = await sendRides(bikeId, rides, here === null);
  const taken = uploads.flatMap(({ files }) => files);
  const sent = { uploadIds: uploads.map(({ uploadId }) => uploadId), rides: taken };
  if (here === null && taken.length > 0 && taken.every(({ status }) => status !== 'queued')) {
    await removeEmptyBike(bikeId);
    const message = ridesElsewhere(taken) ? NOT_SENT_ELSEWHERE : NOT_SENT_UNREADABLE;
    const notSent = adjustments.filter(({ fault }) => fault === null);
    return {
      bikeId: null,
      ...sent,
      adjustments: notSent.map(({ file: { name } }) => ({ name, status: 'refused', message, added: 0 })),
    };
  }
  const logs = [];
  for (const { file, fault } of adjustments)
    if (fault === null) logs.push({ name: file.name, ...(await sendAdjustments(bikeId, file)) });
  return { bikeId, ...sent, adjustments: logs };
}
