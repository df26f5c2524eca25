/** Texts whose answers are remembered at most; then it is begun anew. */
const MOST_TEXTS = 20_000;

/** What was worked out of a text. The same few thousand are asked about again and again. */
export function rememberedByText<V>(work: (of: string) => V): (of: string) => V {
  const known = new Map<string, { readonly value: V }>();
  return of => {
    const last = known.get(of);
    if (last !== undefined) return last.value;
    const value = work(of);
    if (known.size >= MOST_TEXTS) known.clear();
    known.set(of, { value });
    return value;
  };
}

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
