const nameless = 'bike without a name';

/** What was kept of a bike, with a name where it had blanks alone, as could once be put in: all else of it is sound. */
export const namedBike = (kept: unknown): unknown =>
  typeof kept === 'object' &&
  kept !== null &&
  'name' in kept &&
  typeof kept.name === 'string' &&
  kept.name.trim() === ''
    ? { ...kept, name: nameless }
    : kept;
