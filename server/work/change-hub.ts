/** Something that changed, as `/api/events` tells it. Ids only. */
export type Change =
  | { readonly type: 'bike'; readonly bikeId: string; readonly pending: number }
  | {
      readonly type: 'ride';
      readonly rideId: string;
      readonly bikeId: string | null;
      readonly uploadId: string | null;
      readonly status: 'queued' | 'analysing' | 'done' | 'failed';
    }
  | { readonly type: 'gone'; readonly bikeId?: string; readonly rideId?: string };

/** Passes changes on to whoever listens. */
export class ChangeHub {
  readonly #listeners = new Set<(change: Change) => void>();

  /** Returns the function that ends the listening. */
  listen(listener: (change: Change) => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  tell(change: Change): void {
    for (const listener of this.#listeners) listener(change);
  }
}
