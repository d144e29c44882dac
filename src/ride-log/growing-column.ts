/** A column of numbers that grows as a decoder reads, doubling its room. */
export class GrowingColumn {
  #values = new Float64Array(1024);
  #length = 0;

  get length(): number {
    return this.#length;
  }

  push(value: number): void {
    if (this.#length === this.#values.length) {
      const larger = new Float64Array(this.#values.length * 2);
      larger.set(this.#values);
      this.#values = larger;
    }
    this.#values[this.#length++] = value;
  }

  /** The values so far: a view, good until the next `push`. */
  values(): Float64Array {
    return this.#values.subarray(0, this.#length);
  }
}
