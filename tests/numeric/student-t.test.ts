import { expect, it } from 'vitest';
import { studentT4, studentT4Cost } from '../../src/numeric/student-t.ts';

it('is a density whatever its width, with its known quartile', () => {
  for (const deviation of [0.5, 2]) {
    let all = 0;
    let toQuartile = 0;
    const step = 0.001;
    for (let z = -200; z < 200; z += step) {
      const part = studentT4(z + step / 2, deviation) * step * deviation;
      all += part;
      // the 75 % point of t with 4 degrees of freedom, as any table gives it
      if (z < 0.7407) toQuartile += part;
    }
    expect(all).toBeCloseTo(1, 5);
    expect(toQuartile).toBeCloseTo(0.75, 3);
  }
});

it('costs what its density falls below the peak', () => {
  for (const z of [-6, -1, 0, 0.5, 3])
    expect(studentT4Cost(z)).toBeCloseTo(Math.log(studentT4(0, 1) / studentT4(z, 1)), 12);
});
