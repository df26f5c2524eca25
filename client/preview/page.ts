/** The script of the preview's page: shows what the extension sends, in place, and says what is clicked. */
import morphdom from 'morphdom';
import type { Choice } from '../chosen-times';
import { EMPTY_PAGE } from './empty';
import { keepChoices, showHeld, sizeAskedBy } from './fields';
import { ACTIONS, type FromPage, type PanelState, type ToPage } from './messages';
import { moveAlong, showNow } from './timeline';
import './page.css';

declare function acquireVsCodeApi(): {
  postMessage(message: FromPage): void;
  setState(state: PanelState): void;
};

const vscode = acquireVsCodeApi();
const page = document.getElementById('page');

if (page) {
  window.addEventListener('message', ({ data }: MessageEvent<ToPage>) => receive(page, data));
  page.addEventListener('click', ({ target }) => {
    if (target instanceof Element && !doActionOf(target)) goToLineOf(target);
  });
  page.addEventListener('keydown', (event) => {
    const bar = event.target instanceof SVGElement ? event.target : undefined;
    if (bar === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'Enter' || event.key === ' ') goToLineOf(bar);
    else if (!moveAlong(bar, event.key)) return;
    event.preventDefault();
  });
  page.addEventListener('change', ({ target }) => changed(page, target));
  setInterval(() => showNow(page, Date.now()), 60_000);
  vscode.postMessage({ type: 'loaded' });
}

function receive(page: HTMLElement, message: ToPage): void {
  switch (message.type) {
    case 'show':
      patch(page, message.html);
      showNow(page, Date.now());
      vscode.setState(message.state);
      if (!message.same) window.scrollTo(0, 0);
      return;
    case 'nothing':
      patch(page, EMPTY_PAGE);
  }
}

function changed(page: HTMLElement, target: EventTarget | null): void {
  if (!(target instanceof Element)) return;
  if (target.closest('.anchor')) {
    const anchor = anchorOf(page);
    if (anchor) vscode.postMessage({ type: 'anchor', anchor });
    return;
  }
  if (target.id === 'size-have-of') showHeld(page);
  const size = sizeAskedBy(page, target);
  if (size) vscode.postMessage({ type: 'size', size });
}

/** False where the click was on no button that does something. */
function doActionOf(target: Element): boolean {
  const name = target.closest('[data-do]')?.getAttribute('data-do');
  const action = ACTIONS.find((one) => one === name);
  if (action) vscode.postMessage({ type: 'do', action });
  return action !== undefined;
}

function goToLineOf(target: Element): void {
  const line = target.closest('[data-line]')?.getAttribute('data-line');
  if (line) vscode.postMessage({ type: 'line', line: Number(line) });
}

/**
 * Changes what is different and nothing else: scroll, focus, and a selection for copying stay where they are. The page's
 * sections are always all there and in one order, so none is ever moved, which would lose both.
 */
function patch(page: HTMLElement, html: string): void {
  const next = page.cloneNode(false) as HTMLElement;
  next.innerHTML = html; // escaped by the server, and the page's policy runs nothing in it
  keepChoices(page, next);
  const wasIn = document.activeElement?.closest('#size-shown') !== null && document.activeElement !== null;
  morphdom(page, next, {
    onBeforeElUpdated: (from, to) => {
      if (from.isEqualNode(to)) return false;
      if (from !== document.activeElement || !(from instanceof HTMLInputElement) || !(to instanceof HTMLInputElement)) return true;
      // A date that is being typed is the baker's until it is finished. So is a size, but what is wrong with it is said.
      to.value = from.value;
      return from.type === 'text';
    },
  });
  // The button that was pressed is gone: on from beside where it was.
  if (wasIn && !page.contains(document.activeElement)) page.querySelector<HTMLElement>('#size-name')?.focus();
}

/** What the two fields of the timeline say; undefined while the date is unfinished. */
function anchorOf(page: HTMLElement): Choice | undefined {
  const kind = page.querySelector<HTMLSelectElement>('#anchor-kind')?.value;
  const local = page.querySelector<HTMLInputElement>('#anchor-time')?.value;
  if (!local || (kind !== 'ready' && kind !== 'start')) return undefined;
  return { kind, local: local.slice(0, 16) };
}
