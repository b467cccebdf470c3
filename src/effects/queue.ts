/** Does works one after another, in the order they were asked for. One that fails does not keep the next from its turn. */
export function queue(): <T>(work: () => Promise<T>) => Promise<T> {
  let before: Promise<unknown> = Promise.resolve();
  return (work) => {
    const done = before.then(work);
    before = done.catch(() => undefined);
    return done;
  };
}
