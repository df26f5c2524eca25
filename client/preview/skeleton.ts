/** The empty page: our own style and script, and nothing else may load or run. */

export interface Sources {
  /** Where the style may come from. */
  readonly source: string;
  readonly style: string;
  readonly script: string;
}

export function pageOf({ source, style, script }: Sources): string {
  const nonce = Array.from(crypto.getRandomValues(new Uint8Array(16)), (byte) => byte.toString(16).padStart(2, '0')).join('');
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src ${source}; script-src 'nonce-${nonce}'; form-action 'none'; base-uri 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>Preview</title>
<link rel="stylesheet" href="${style}">
</head>
<body>
<main id="page" aria-live="off"></main>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>`;
}
