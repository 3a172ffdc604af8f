/**
 * What the page asked of the worker and may give up: many at a time, or one alone. Work alone ends
 * what is under way, since that would meet half of what it does, and holds back what comes.
 */
export class DeskJobs {
  readonly #running = new Map<number, AbortController>();
  #before: Promise<unknown> = Promise.resolve();

  readonly work = async <Value>(job: number, run: (signal: AbortSignal) => Promise<Value>): Promise<Value> => {
    const controller = new AbortController();
    this.#running.set(job, controller);
    try {
      await this.#before;
      controller.signal.throwIfAborted();
      return await run(controller.signal);
    } finally {
      this.#running.delete(job);
    }
  };

  readonly alone = async <Value>(job: number, run: (signal: AbortSignal) => Promise<Value>): Promise<Value> => {
    for (const other of this.#running.keys()) this.abandon(other);
    const done = this.work(job, run);
    this.#before = done.catch(() => undefined);
    return done;
  };

  /** Ends the job of that number; its answer is then an error that nobody waits for. */
  readonly abandon = (job: number): void => this.#running.get(job)?.abort();
}
