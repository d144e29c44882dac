import { expect, it } from 'vitest';
import { inOrder } from '../../web/page/in-order.ts';

it('shows no answer that comes after one which was asked for later', async () => {
  const answers: ((answer: string) => void)[] = [];
  const shown: string[] = [];
  const refresh = inOrder(
    () => new Promise<string>((resolve) => answers.push(resolve)),
    (answer) => shown.push(answer),
  );
  const all = [refresh(), refresh(), refresh()];
  answers[1]('second');
  await all[1];
  answers[0]('first');
  answers[2]('third');
  await Promise.all(all);
  expect(shown).toEqual(['second', 'third']);
});
