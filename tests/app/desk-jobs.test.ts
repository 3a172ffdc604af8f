import { expect, test } from 'vitest';
import { DeskJobs } from '../../app/_state/desk-jobs.ts';

const later = (signal: AbortSignal): Promise<string> =>
  new Promise((resolve, reject) => {
    const timer = setTimeout(() => resolve('done'), 30);
    signal.addEventListener('abort', () => {
      clearTimeout(timer);
      reject(signal.reason as Error);
    });
  });

test('a job given up ends with an error, others do not', async () => {
  const jobs = new DeskJobs();
  const [one, two] = [jobs.work(1, later), jobs.work(2, later)];
  one.catch(() => undefined);
  await Promise.resolve();
  jobs.abandon(1);
  jobs.abandon(99);
  await expect(one).rejects.toThrow();
  expect(await two).toBe('done');
});

test('work alone ends what is under way and holds back what comes, even where it fails', async () => {
  const jobs = new DeskJobs();
  const under = jobs.work(1, later);
  under.catch(() => undefined);
  await Promise.resolve();
  const order: string[] = [];
  const alone = jobs.alone(2, async () => {
    await later(new AbortController().signal);
    order.push('alone');
    throw new Error('no');
  });
  alone.catch(() => undefined);
  const after = jobs.work(3, () => Promise.resolve(order.push('after')));
  await expect(under).rejects.toThrow();
  await expect(alone).rejects.toThrow('no');
  await after;
  expect(order).toEqual(['alone', 'after']);
});
