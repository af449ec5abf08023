// Shows or hides the figures beside the lines: where the user has set it before, or for all workspaces.

import * as vscode from 'vscode';

export async function toggleHints(): Promise<void> {
  const settings = vscode.workspace.getConfiguration('groundbass.hints');
  const inWorkspace = settings.inspect<boolean>('enabled')?.workspaceValue !== undefined;
  const { Global, Workspace } = vscode.ConfigurationTarget;
  await settings.update('enabled', !settings.get('enabled'), inWorkspace ? Workspace : Global);
}
