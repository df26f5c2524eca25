import type { Plugin } from 'esbuild';

export declare const shipped: Plugin;
export declare const shippedWithReasons: Plugin;
