import type { QuestionId } from '../../shared/finding.ts';

/** Questions whose work keeps the worker busy for seconds. */
const long: ReadonlySet<QuestionId> = new Set(['causes', 'shops']);

/** The quick questions first; the long ones after them, one at a time. */
export class TakingTurns {
  readonly #quick = new Set<Promise<unknown>>();
  #before: Promise<unknown> = Promise.resolve();

  readonly turn = <Value>(question: QuestionId, signal: AbortSignal, run: () => Promise<Value>): Promise<Value> => {
    const started = long.has(question) ? this.#after(signal, run) : run();
    const over = started.then(nothing, nothing);
    if (long.has(question)) this.#before = over;
    else {
      this.#quick.add(over);
      void over.then(() => this.#quick.delete(over));
    }
    return started;
  };

  async #after<Value>(signal: AbortSignal, run: () => Promise<Value>): Promise<Value> {
    await this.#before;
    // What the page asks in one go comes in messages of its own: those are let in first.
    await new Promise((resolve) => setTimeout(resolve));
    while (this.#quick.size > 0 && !signal.aborted) await Promise.all(this.#quick);
    signal.throwIfAborted();
    return run();
  }
}

const nothing = (): void => undefined;
