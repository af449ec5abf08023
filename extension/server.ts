// What the extension asks its server, as functions: one a request of ours, with the protocol's types on both sides.

import * as vscode from 'vscode';
import { type BaseLanguageClient, State } from 'vscode-languageclient';
import {
  FIND_PLACEMENTS,
  FIT_EQUALISER,
  type FindPlacementsArgument,
  type FitEqualiserArgument,
  MOVE_OTHERS,
  type MoveOthersArgument,
} from '../server/protocol/commands.ts';
import {
  EDIT_REQUEST,
  type EditAnswer,
  type EditParams,
  SHEET_REQUEST,
  type SheetAnswer,
} from '../server/protocol/edits.ts';
import {
  LOW_END_REQUEST,
  type LowEndAnswer,
  type LowEndParams,
} from '../server/protocol/lowEnd.ts';
import {
  PATH_AT_REQUEST,
  type PathAtAnswer,
  RANGE_OF_REQUEST,
  type RangeOfAnswer,
} from '../server/protocol/places.ts';
import { TRY_REQUEST, type TryAnswer, type Wanted } from '../server/protocol/search.ts';
import {
  SETUP_CHANGED,
  SETUP_REQUEST,
  type SetupAnswer,
  type SetupChangedParams,
} from '../server/protocol/setup.ts';

type Path = NonNullable<PathAtAnswer>;

export class Server {
  readonly #client: BaseLanguageClient;

  constructor(client: BaseLanguageClient) {
    this.#client = client;
  }

  get isRunning(): boolean {
    return this.#client.state === State.Running;
  }

  onStateChange(listener: () => void): vscode.Disposable {
    return this.#client.onDidChangeState(listener);
  }

  onSetupChange(listener: (uri: string) => void): vscode.Disposable {
    return this.#client.onNotification(SETUP_CHANGED, ({ uri }: SetupChangedParams) =>
      listener(this.#fromServer(uri).toString()),
    );
  }

  setup(uri: vscode.Uri): Promise<SetupAnswer> {
    return this.#client.sendRequest(SETUP_REQUEST, { uri: this.#toServer(uri) });
  }

  sheet(uri: vscode.Uri): Promise<SheetAnswer> {
    return this.#client.sendRequest(SHEET_REQUEST, { uri: this.#toServer(uri) });
  }

  pathAt(uri: vscode.Uri, position: vscode.Position): Promise<PathAtAnswer> {
    const { line, character } = position;
    return this.#client.sendRequest(PATH_AT_REQUEST, {
      uri: this.#toServer(uri),
      position: { line, character },
    });
  }

  async rangeOf(uri: vscode.Uri, path: Path): Promise<vscode.Range | null> {
    const answer: RangeOfAnswer = await this.#client.sendRequest(RANGE_OF_REQUEST, {
      uri: this.#toServer(uri),
      path,
    });
    return answer && toRange(answer);
  }

  /** What edits by meaning are as edits of the text; null where the text has moved on. */
  async textEdits(
    document: vscode.TextDocument,
    version: number,
    edits: EditParams['edits'],
  ): Promise<readonly vscode.TextEdit[] | null> {
    const answer: EditAnswer = await this.#client.sendRequest(EDIT_REQUEST, {
      uri: this.#toServer(document.uri),
      version,
      edits,
    });
    if (!answer || document.version !== version) return null;
    return answer.map(({ range, newText }) => vscode.TextEdit.replace(toRange(range), newText));
  }

  /** The room as it would be; null where the text has moved on since `version`. */
  tryOut(uri: vscode.Uri, version: number, edits: EditParams['edits']): Promise<TryAnswer> {
    return this.#client.sendRequest(TRY_REQUEST, { uri: this.#toServer(uri), version, edits });
  }

  /** Searches places, or fits EQ. @returns whether something was found */
  async search(uri: vscode.Uri, wanted: Wanted, token: vscode.CancellationToken): Promise<boolean> {
    const command = commandFor({ uri: this.#toServer(uri), quiet: true }, wanted);
    const request = 'workspace/executeCommand';
    const answer: unknown = await this.#client.sendRequest(request, command, token);
    return answer !== null;
  }

  /** The low end while something moves; null where the text has moved on since `version`. */
  lowEnd(uri: vscode.Uri, version: number, ask: LowEndParams['ask']): Promise<LowEndAnswer | null> {
    return this.#client.sendRequest(LOW_END_REQUEST, { uri: this.#toServer(uri), version, ask });
  }

  #toServer(uri: vscode.Uri): string {
    return this.#client.code2ProtocolConverter.asUri(uri);
  }

  #fromServer(uri: string): vscode.Uri {
    return this.#client.protocol2CodeConverter.asUri(uri);
  }
}

function commandFor(
  about: { readonly uri: string; readonly quiet: boolean },
  { what, id, session, seats }: Wanted,
): { readonly command: string; readonly arguments: readonly unknown[] } {
  switch (what) {
    case 'places': {
      const argument: FindPlacementsArgument = { ...about, subwoofer: id };
      return { command: FIND_PLACEMENTS, arguments: [argument] };
    }
    case 'eq': {
      const argument: FitEqualiserArgument = {
        ...about,
        device: id,
        ...(session === undefined ? {} : { session }),
        ...(seats === undefined ? {} : { seats }),
      };
      return { command: FIT_EQUALISER, arguments: [argument] };
    }
    default: {
      const argument: MoveOthersArgument = { ...about, move: what };
      return { command: MOVE_OTHERS, arguments: [argument] };
    }
  }
}

function toRange({ start, end }: NonNullable<RangeOfAnswer>): vscode.Range {
  return new vscode.Range(start.line, start.character, end.line, end.character);
}
