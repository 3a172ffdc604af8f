/** A queue of one: each piece of work starts when the one before it has ended, however it ended. */
export class Turns {
  #last: Promise<unknown> = Promise.resolve();

  take<T>(work: () => Promise<T>, signal?: AbortSignal): Promise<T> {
    const turn = this.#last.then(() => {
      signal?.throwIfAborted();
      return work();
    });
    this.#last = turn.catch(() => undefined);
    return turn;
  }
}
