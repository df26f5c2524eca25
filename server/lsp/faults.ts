/** What goes wrong inside, for the log of the editor. */

/**
 * Tells of each kind of fault once: a slip in a check would otherwise fill the log at every key. Of one kind are faults that come from the
 * same place of the program while the same was being done.
 */
export function oncePerKind(tell: (text: string) => void): (where: string, fault: unknown) => void {
  const known = new Set<string>();
  return (where, fault) => {
    const text = fault instanceof Error ? fault.stack ?? fault.message : String(fault);
    const place = /\n\s+at .*/.exec(text)?.[0] ?? text;
    const kind = where + place;
    if (known.has(kind)) return;
    known.add(kind);
    tell(`${where}: ${text}`);
  };
}
