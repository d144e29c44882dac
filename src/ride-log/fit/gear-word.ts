/** A gear word taken apart; 0 for what is unknown. Positions count from the innermost, so 1 is the largest cog and the smallest ring. */
export interface GearWord {
  readonly rearPosition: number;
  readonly rearTeeth: number;
  readonly frontPosition: number;
  readonly frontTeeth: number;
}

/** 0 and 255 both mean unknown, in each byte singly. */
export const knownGear = (byte: number): number => (byte > 0 && byte < 255 ? byte : 0);

/**
 * Unpacks the `data` word of a gear event (42 front, 43 rear): rear position in bits 0 to 7, rear teeth in 8 to 15,
 * front position in 16 to 23, front teeth in 24 to 31. Source: the generated profile of two open decoders.
 *
 * @example unpackGearWord(0x27010e08) // rear position 8, 14 teeth; front position 1, 39 teeth
 */
export function unpackGearWord(word: number): GearWord {
  return {
    rearPosition: knownGear(word & 0xff),
    rearTeeth: knownGear((word >>> 8) & 0xff),
    frontPosition: knownGear((word >>> 16) & 0xff),
    frontTeeth: knownGear((word >>> 24) & 0xff),
  };
}
