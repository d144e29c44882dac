/** Sixteenths of a metre after which the packed distance begins again at 0. */
const ROLL_OVER = 4096;

/**
 * Unpacks record field 8: three bytes that hold twelve bits of speed (1/100 m/s) and twelve bits of distance (1/16 m),
 * which rolls over every 256 m and is summed up here. All bytes 255: nothing known; all speed bits 1: no speed.
 */
export class CompressedSpeedDistance {
  #last = 0;
  #sixteenths = 0;
  /** The distance begins anew: a new segment. */
  restart(): void {
    this.#last = 0;
    this.#sixteenths = 0;
  }
  /** `bytes` as fit-file-parser gives them: 255 singly has become null. */
  unpack(bytes: readonly (number | null)[]): { speedMps: number; distanceM: number } {
    const [low, middle, high] = bytes.map((byte) => byte ?? 255);
    if (low === 255 && middle === 255 && high === 255) return { speedMps: NaN, distanceM: NaN };
    const speed = low | ((middle & 0x0f) << 8);
    const distance = (middle >> 4) | (high << 4);
    this.#sixteenths += (distance - this.#last + ROLL_OVER) % ROLL_OVER;
    this.#last = distance;
    return { speedMps: speed === 0xfff ? NaN : speed / 100, distanceM: this.#sixteenths / 16 };
  }
}
