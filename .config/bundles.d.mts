import type { BuildOptions } from 'esbuild';

export interface Bundle {
  readonly entry: string;
  readonly outfile: string;
  readonly parts?: Readonly<Record<string, readonly string[]>>;
  readonly options: BuildOptions;
}

export declare const bundles: readonly Bundle[];
export declare function filesOf(outfile: string): readonly string[];
