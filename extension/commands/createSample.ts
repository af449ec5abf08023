// Copies the sample facility into a folder of the user's choice, where it can be changed at will, and opens a room of it.

import * as vscode from 'vscode';

const FOLDER = 'groundbass-sample';

export async function createSample(extensionUri: vscode.Uri): Promise<void> {
  const [parent] =
    (await vscode.window.showOpenDialog({
      canSelectFiles: false,
      canSelectFolders: true,
      openLabel: vscode.l10n.t('Copy the sample here'),
      ...(vscode.workspace.workspaceFolders?.[0] && {
        defaultUri: vscode.workspace.workspaceFolders[0].uri,
      }),
    })) ?? [];
  if (!parent) return;
  const target = await freeFolder(parent);
  const { texts, sounds } = await sample(extensionUri);
  const write = async (name: string, bytes: Uint8Array) =>
    await vscode.workspace.fs.writeFile(vscode.Uri.joinPath(target, name), bytes);
  for (const [name, base64] of Object.entries(sounds)) await write(name, bytesOf(base64));
  for (const [name, text] of Object.entries(texts))
    await write(name, new TextEncoder().encode(text));
  const room = Object.keys(texts).find((name) => name.endsWith('heron.room.yaml'));
  // Not as a preview, which the next thing that is opened, such as the walkthrough, would replace.
  if (room)
    await vscode.window.showTextDocument(vscode.Uri.joinPath(target, room), { preview: false });
  if (vscode.workspace.getWorkspaceFolder(target)) return;
  const open = vscode.l10n.t('Open the Folder');
  const chosen = await vscode.window.showInformationMessage(
    vscode.l10n.t('The sample facility was copied to {0}.', FOLDER),
    open,
  );
  if (chosen) await vscode.commands.executeCommand('vscode.openFolder', target);
}

/** Files by their names; sounds in base64. */
interface Sample {
  readonly texts: Readonly<Record<string, string>>;
  readonly sounds: Readonly<Record<string, string>>;
}

async function sample(extensionUri: vscode.Uri): Promise<Sample> {
  const file = vscode.Uri.joinPath(extensionUri, 'dist', 'sample.json');
  return JSON.parse(new TextDecoder().decode(await vscode.workspace.fs.readFile(file)));
}

function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (sign) => sign.charCodeAt(0));
}

/** Nothing of the user's is ever written over. */
async function freeFolder(parent: vscode.Uri): Promise<vscode.Uri> {
  for (let count = 1; ; count++) {
    const folder = vscode.Uri.joinPath(parent, count === 1 ? FOLDER : `${FOLDER}-${count}`);
    try {
      await vscode.workspace.fs.stat(folder);
    } catch {
      return folder;
    }
  }
}
