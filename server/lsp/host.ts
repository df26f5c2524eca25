/** What differs between the places where the server runs. */
export interface Host {
  readonly reader: {
    /** The text of a file; undefined when there is none to read. */
    read(uri: string): Promise<string | undefined>;
  };
  /** URIs of the `.bake` files in folders, at most so many. */
  find?(roots: readonly string[], most?: number): Promise<readonly string[]>;
  /** URIs of the Markdown pages in folders, whether or not there are formulas in them. */
  findPages?(roots: readonly string[]): Promise<readonly string[]>;
  /** URI of the page of checks beside the server, for an editor that does not say where its own is. */
  readonly checksPage?: string;
  /** Told of everything that went wrong inside; what was asked is answered with nothing. */
  onFault(where: string, fault: unknown): void;
}
