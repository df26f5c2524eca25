/** How words are set apart where the surface can: a terminal with colours. Nothing is ever said by colour alone. */
export interface Paint {
  readonly strong: (text: string) => string;
  readonly quiet: (text: string) => string;
  readonly severity: (severity: 'error' | 'warning' | 'info', text: string) => string;
}

const asItIs = (text: string): string => text;

/** No colours, for files, pipes and tests. */
export const plain: Paint = { strong: asItIs, quiet: asItIs, severity: (_severity, text) => text };
