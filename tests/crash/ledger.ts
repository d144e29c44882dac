/**
 * What was asked of the server and what it acknowledged, kept outside it. A write whose answer never came may or may
 * not have been done, but whole: its value is one of two. Everything acknowledged must be there.
 */
export class Ledger {
  /** By kind and id: values that it may have; null: it may be absent. One value: that is what was acknowledged. */
  readonly #may = new Map<string, Set<string | null>>();
  /** How many writes of each kind were acknowledged. */
  readonly acknowledged = new Map<string, number>();
  unanswered = 0;

  /** Does one write and notes it: `ask` resolves when it was acknowledged and throws when no answer came. */
  async write(key: string, value: string | null, ask: () => Promise<unknown>): Promise<boolean> {
    const before = this.#may.get(key) ?? new Set([null]);
    this.#may.set(key, new Set([...before, value]));
    try {
      await ask();
    } catch {
      this.unanswered++;
      return false;
    }
    this.#may.set(key, new Set([value]));
    const [kind] = key.split(' ');
    this.acknowledged.set(kind, (this.acknowledged.get(kind) ?? 0) + 1);
    return true;
  }

  /** Holds what is really there against the ledger. Returns what is wrong; afterwards nothing is uncertain. */
  check(kind: string, real: ReadonlyMap<string, string>): string[] {
    const wrong: string[] = [];
    for (const [key, may] of this.#may) {
      if (!key.startsWith(`${kind} `)) continue;
      const is = real.get(key.slice(kind.length + 1)) ?? null;
      if (!may.has(is)) wrong.push(`${key}: is ${is}, may be ${[...may].join(' or ')}`);
      this.#may.set(key, new Set([is]));
    }
    for (const id of real.keys()) if (!this.#may.has(`${kind} ${id}`)) wrong.push(`${kind} ${id}: nobody asked for it`);
    return wrong;
  }
}
