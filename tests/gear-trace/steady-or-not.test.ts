import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { SteadyOrNot, UNSTEADY } from '../../src/gear-trace/unsteady/steady-or-not.ts';

const seconds = fc.double({ min: 0.1, max: 1e5, noNaN: true });
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe('steady or not', () => {
  it('keeps the sum of chances, moves towards the usual shares and is there after a long pause', () => {
    fc.assert(
      fc.property(seconds, share, (stepS, unsteady) => {
        const chain = new SteadyOrNot(Float64Array.of(0, stepS));
        const to = new Float64Array(2);
        chain.forward(1, Float64Array.of(1 - unsteady, unsteady), to);
        expect(to[0] + to[1]).toBeCloseTo(1, 12);
        const usual = chain.initial[UNSTEADY];
        expect(Math.abs(to[UNSTEADY] - usual)).toBeLessThanOrEqual(Math.abs(unsteady - usual) + 1e-12);
        if (stepS > 5000) expect(to[UNSTEADY]).toBeCloseTo(usual, 6);
      }),
    );
  });

  it('takes two steps of a second as one of two, and goes back as it goes forth', () => {
    fc.assert(
      fc.property(share, share, (unsteady, likely) => {
        const from = Float64Array.of(1 - unsteady, unsteady);
        const [once, twice, over] = [new Float64Array(2), new Float64Array(2), new Float64Array(2)];
        const chain = new SteadyOrNot(Float64Array.of(0, 1, 2));
        chain.forward(1, from, once);
        chain.forward(2, once, twice);
        new SteadyOrNot(Float64Array.of(0, 2)).forward(1, from, over);
        expect(twice[UNSTEADY]).toBeCloseTo(over[UNSTEADY], 12);
        const seen = Float64Array.of(1 - likely, likely);
        const back = new Float64Array(2);
        chain.backward(1, seen, back);
        expect(from[0] * back[0] + from[1] * back[1]).toBeCloseTo(once[0] * seen[0] + once[1] * seen[1], 12);
      }),
    );
  });
});
