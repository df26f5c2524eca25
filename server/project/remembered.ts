/** What was worked out of something that does not change, for as long as it is there: a block that stays is read once. */
export function remembered<K extends object, V>(work: (of: K) => V): (of: K) => V {
  const known = new WeakMap<K, { readonly value: V }>();
  return of => {
    const last = known.get(of);
    if (last !== undefined) return last.value;
    const value = work(of);
    known.set(of, { value });
    return value;
  };
}
