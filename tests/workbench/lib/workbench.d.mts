/** The types of what tests outside this folder take from here. */
import type { Browser } from 'playwright-core';

/** Whether there is a browser to drive. */
export function hasBrowser(): boolean;

/** Start it once per test file: contexts are cheap, browsers are not. */
export function launchBrowser(): Promise<Browser>;
