// The language status of our files: whether the server works, and the way to its log and restart.

import * as vscode from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import { GROUNDBASS_SELECTOR } from './languages.ts';

export function registerStatus(context: vscode.ExtensionContext, client: BaseLanguageClient): void {
  const status = vscode.languages.createLanguageStatusItem('groundbass.server', [
    ...GROUNDBASS_SELECTOR,
  ]);
  status.name = vscode.l10n.t('Groundbass language server');
  const show = () => {
    const { text, severity, busy, command } = told(client.state);
    Object.assign(status, { text, severity, busy, command });
  };
  context.subscriptions.push(status, client.onDidChangeState(show));
  show();
}

function told(
  state: State,
): Pick<vscode.LanguageStatusItem, 'text' | 'severity' | 'busy' | 'command'> {
  const log = { command: 'groundbass.showLog', title: vscode.l10n.t('Show the log') };
  const restart = { command: 'groundbass.restartServer', title: vscode.l10n.t('Restart') };
  const { Information, Error: Fault } = vscode.LanguageStatusSeverity;
  switch (state) {
    case State.Running:
      return {
        text: vscode.l10n.t('Worked out while you type'),
        severity: Information,
        busy: false,
        command: log,
      };
    case State.Starting:
      return { text: vscode.l10n.t('Starting'), severity: Information, busy: true, command: log };
    default:
      return {
        text: vscode.l10n.t('The language server has stopped'),
        severity: Fault,
        busy: false,
        command: restart,
      };
  }
}
