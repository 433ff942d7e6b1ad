/** An answer, or nothing of it while it is being worked out; asked for again it comes when it is ready. */
export interface Soon<T> {
  readonly ready?: T;
  /** How many pieces are worked out of those that it waits for. */
  readonly progress?: { readonly done: number; readonly of: number };
}

const usualPatience_ms = 150;

/** Waits a little for an answer that may take long, and leaves it being worked out. */
export async function soon<T>(answer: Promise<T>, patience_ms = usualPatience_ms): Promise<Soon<T>> {
  answer.catch(() => undefined);
  const pause = new Promise<Soon<T>>((done) => setTimeout(() => done({}), patience_ms).unref?.());
  return Promise.race([answer.then((ready) => ({ ready })), pause]);
}
