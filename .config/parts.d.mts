import type { BuildOptions, Metafile } from 'esbuild';

export interface Program {
  readonly entry: string;
  readonly outfile: string;
  readonly parts: Readonly<Record<string, readonly string[]>>;
}

export declare function buildInParts(options: BuildOptions, program: Program): Promise<readonly Pick<Metafile, 'outputs'>[]>;
export declare function fileOf(outfile: string, part: string): string;
