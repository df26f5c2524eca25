/** What the drawn timeline does by itself: the line of the present, and going from bar to bar by arrow keys. */

/** Draws the present into every lane of a day that holds it; on any other day there is none. */
export function showNow(page: Element, nowMs: number): void {
  for (const lanes of page.querySelectorAll('.lanes')) {
    const [fromMs, toMs] = ['data-from', 'data-to'].map((name) => Number(lanes.getAttribute(name)));
    const share = fromMs === undefined || toMs === undefined ? Number.NaN : (nowMs - fromMs) / (toMs - fromMs);
    const isThere = share >= 0 && share <= 1;
    lanes.closest('figure')?.classList.toggle('has-now', isThere);
    if (!isThere) continue;
    for (const line of lanes.querySelectorAll('line.now')) {
      for (const end of ['x1', 'x2']) line.setAttribute(end, `${(100 * share).toFixed(3)}%`);
    }
  }
}

/** Moves the focus from one bar to the next or the last in time. False for a key that means nothing here. */
export function moveAlong(bar: Element, key: string): boolean {
  const bars = [...bar.closest('.lanes')?.querySelectorAll<SVGElement>('[data-at]') ?? []];
  bars.sort((a, b) => Number(a.getAttribute('data-at')) - Number(b.getAttribute('data-at')));
  const at = bars.findIndex((other) => other === bar);
  const to = at < 0 ? undefined : bars[nextIndex(key, at, bars.length)];
  if (to === undefined) return false;
  // One bar at a time is a stop of the tab key: the one that was last on.
  for (const other of bars) other.setAttribute('tabindex', other === to ? '0' : '-1');
  to.focus();
  to.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  return true;
}

function nextIndex(key: string, at: number, count: number): number {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowDown':
      return Math.min(at + 1, count - 1);
    case 'ArrowLeft':
    case 'ArrowUp':
      return Math.max(at - 1, 0);
    case 'Home':
      return 0;
    case 'End':
      return count - 1;
    default:
      return -1;
  }
}
