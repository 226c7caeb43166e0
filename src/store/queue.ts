/** A queue of one: each step begins when the one before has ended, well or badly, and answers to its own caller. */
export function queue(): <T>(step: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (step) => {
    const mine = last.then(step);
    last = mine.catch(() => undefined);
    return mine;
  };
}
