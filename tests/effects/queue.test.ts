import { expect, it } from 'vitest';
import { queue } from '../../src/effects/queue';

const after = (ms: number): Promise<void> => new Promise((end) => setTimeout(end, ms));

it('works are done in the order they were asked for, and one that fails does not keep the next from its turn', async () => {
  const inOrder = queue();
  const done: string[] = [];
  const slow = inOrder(async () => {
    await after(20);
    done.push('slow');
  });
  const failing = inOrder(() => Promise.reject(new Error('no room left')));
  const quick = inOrder(() => Promise.resolve(done.push('quick')));
  await expect(failing).rejects.toThrow('no room left');
  await Promise.all([slow, quick]);
  expect(done).toEqual(['slow', 'quick']);
});
