/**
 * The same pure function, but worked out once for each object it is asked about and remembered as long as that object
 * lives. For results that several values share; the object must not change.
 */
export function remembered<Key extends object, Result>(work: (key: Key) => Result): (key: Key) => Result {
  const known = new WeakMap<Key, { readonly result: Result }>();
  return (key) => {
    const found = known.get(key);
    if (found) return found.result;
    const result = work(key);
    known.set(key, { result });
    return result;
  };
}
