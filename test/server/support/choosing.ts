// A server in this process with a client that answers its questions: for commands that offer something.

import { PassThrough } from 'node:stream';
import type { TextEdit } from 'vscode-languageserver';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { clientFiles } from '../../../server/browser/clientFiles.ts';
import { connect } from '../../../server/connect.ts';
import { fieldWorkerHere } from '../../../server/field/fieldWorkers.ts';
import { measuredWorkerHere } from '../../../server/measured/measuredWorkers.ts';
import { type Client, connectClient } from './client.ts';
import {
  FACILITY,
  FACILITY_TEXT,
  FOLDER,
  GEAR,
  GEAR_TEXT,
  ROOM,
  ROOM_TEXT,
  TODAY,
} from './facility.ts';

export interface Applied {
  readonly label?: string;
  readonly edit: { readonly documentChanges: readonly { readonly edits: readonly TextEdit[] }[] };
}

export interface Choosing {
  /** @param choice which of the offered actions is chosen; null for none */
  readonly inMemory: (
    choice: number | null,
    texts?: { readonly gear?: string; readonly room?: string },
  ) => Promise<Client & { readonly applied: Applied[]; readonly asked: string[] }>;
  readonly stopped: () => Promise<void>;
}

export function choosing(): Choosing {
  let stop: (() => Promise<void>) | null = null;
  return {
    inMemory: async (choice, { gear = GEAR_TEXT, room = ROOM_TEXT } = {}) => {
      const [up, down] = [new PassThrough(), new PassThrough()];
      const connection = createConnection(ProposedFeatures.all, up, down);
      const after = (time_ms: number, act: () => void) => {
        const timer = setTimeout(act, time_ms);
        return () => clearTimeout(timer);
      };
      connect(connection, {
        files: clientFiles(connection),
        today: () => TODAY,
        later: (act) => void setTimeout(act, 1),
        field: { start: () => fieldWorkerHere(after), after },
        measured: { start: () => measuredWorkerHere(after), after },
        docs: null,
      });
      const files = new Map([
        [GEAR, gear],
        [FACILITY, FACILITY_TEXT],
      ]);
      const applied: Applied[] = [];
      const asked: string[] = [];
      const client = await connectClient(down, up, {
        folder: FOLDER,
        pullsDiagnostics: true,
        answers: {
          'groundbass/findFiles': () => [...files.keys()],
          'groundbass/readFile': ({ uri }: { uri: string }) => files.get(uri) ?? null,
          'window/showMessageRequest': (question: { message: string; actions: unknown[] }) => {
            asked.push(question.message);
            return choice === null ? null : question.actions[choice];
          },
          'workspace/applyEdit': (params: Applied) => {
            applied.push(params);
            return { applied: true };
          },
        },
      });
      stop = async () => {
        await client.rpc.sendRequest('shutdown');
        client.rpc.dispose();
        connection.dispose();
      };
      client.open(ROOM, room);
      return { ...client, applied, asked };
    },
    stopped: async () => {
      await stop?.();
      stop = null;
    },
  };
}
