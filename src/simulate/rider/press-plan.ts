/** Presses of the shifter that the rider's hand has still to make, in order of time. */
export class PressPlan {
  private readonly atS: number[] = [];
  private readonly steps: number[] = [];

  get empty(): boolean {
    return this.atS.length === 0;
  }

  /** Time of the last press planned, 0 with none. */
  get endS(): number {
    return this.atS.at(-1) ?? 0;
  }

  /** Plans `count` presses of `step` (+1 to larger, -1 to smaller) from `fromS` on, `intervalS` apart. */
  add(fromS: number, step: number, count: number, intervalS: () => number): void {
    let at = Math.max(fromS, this.endS);
    for (let i = 0; i < count; i++) {
      this.atS.push(at);
      this.steps.push(step);
      at += intervalS();
    }
  }

  clear(): void {
    this.atS.length = 0;
    this.steps.length = 0;
  }

  /** The press that is due by now, 0 for none. */
  due(timeS: number): number {
    if (this.atS.length === 0 || this.atS[0] > timeS) return 0;
    this.atS.shift();
    return this.steps.shift() as number;
  }
}
