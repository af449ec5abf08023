// The preview page's frame: written once a panel, with a policy that allows our one script and our one style sheet.

import * as vscode from 'vscode';

/** Where everything lies that the page may load. */
export function pageFolder(extensionUri: vscode.Uri): vscode.Uri {
  return vscode.Uri.joinPath(extensionUri, 'dist', 'preview');
}

export function pageHtml(webview: vscode.Webview, extensionUri: vscode.Uri): string {
  const folder = pageFolder(extensionUri);
  const script = webview.asWebviewUri(vscode.Uri.joinPath(folder, 'page.js'));
  const style = webview.asWebviewUri(vscode.Uri.joinPath(folder, 'page.css'));
  const nonce = randomToken();
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src ${webview.cspSource};`;
  return `<!doctype html>
<html lang="en">
<head>
  <meta charset="utf-8">
  <meta http-equiv="Content-Security-Policy" content="${policy}">
  <meta name="viewport" content="width=device-width, initial-scale=1">
  <link rel="stylesheet" href="${style}">
  <title>Setup sheet</title>
</head>
<body>
  <div id="root"></div>
  <script nonce="${nonce}" src="${script}"></script>
</body>
</html>`;
}

/** 128 random bits: a page cannot guess what the next one's script is allowed by. */
function randomToken(): string {
  const bytes = globalThis.crypto.getRandomValues(new Uint8Array(16));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
