import { expect, it } from 'vitest';
import { newestOf } from '../../web/page/newest-of.ts';

it('gives no answer that comes after one which was asked for later, but that one again', async () => {
  const waiting: { answer: (answer: string) => void; fail: (error: Error) => void }[] = [];
  const load = newestOf(() => new Promise<string>((answer, fail) => waiting.push({ answer, fail })));
  const [first, second, third, fourth] = [load(), load(), load(), load()];
  waiting[1].answer('second');
  expect(await second).toBe('second');
  waiting[0].answer('first');
  expect(await first).toBe('second');
  waiting[3].fail(new Error('gone'));
  await expect(fourth).rejects.toThrow('gone');
  waiting[2].answer('third');
  expect(await third).toBe('third');
});
