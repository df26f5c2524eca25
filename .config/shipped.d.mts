import type { Plugin } from 'esbuild';

export declare const shipped: Plugin;
