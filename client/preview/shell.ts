/** What the page loads, as the editor lets a page load it. */
export interface PageSources {
  readonly cspSource: string;
  readonly script: string;
  readonly style: string;
  readonly nonce: string;
}

/**
 * The page before anything is shown in it. Nothing runs but the script of this nonce, nothing is fetched but the style
 * beside it, and no word of a document ever stands in it: the script puts them there as text.
 */
export function shellOf({ cspSource, script, style, nonce }: PageSources): string {
  const policy = `default-src 'none'; style-src ${cspSource}; script-src 'nonce-${nonce}'; form-action 'none'; base-uri 'none'`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="${style}">
<title>Guide</title>
</head>
<body>
<div id="guide"></div>
<script nonce="${nonce}" src="${script}"></script>
</body>
</html>
`;
}
