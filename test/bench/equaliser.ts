// Benchmarks of the EQ fit: the stored tasks, beside SciPy's global optimiser on the same tasks in the same run.

import { fitEqualiser } from '../../core/equaliser/fit.ts';
import { FIT_GRID_HZ, STORED_FITS, storedTask } from '../accuracy/cases/equaliser.ts';
import { NO_PEER, peer } from './peer.ts';
import type { Row, Table } from './statistics.ts';

const ROUNDS = 5;

export function tables(): readonly Table[] {
  return [{ title: 'EQ fit', rows: equaliserBenches() }];
}

function equaliserBenches(): readonly Row[] {
  for (const stored of STORED_FITS) fitEqualiser(storedTask(stored)); // warm
  const times_ms: number[] = [];
  let worst = 0;
  for (let round = 0; round < ROUNDS; round++) {
    for (const stored of STORED_FITS) {
      const start_ms = performance.now();
      const { after_db } = fitEqualiser(storedTask(stored));
      times_ms.push(performance.now() - start_ms);
      worst = Math.max(worst, after_db / stored.best_cost_rms_db);
    }
  }
  const peers = peer<readonly { readonly ms: number; readonly left_db: number }[]>(
    'equaliserPeer.py',
    { frequency_hz: FIT_GRID_HZ, cases: STORED_FITS },
  );
  const ours = {
    name: '  EQ fit, 3 bands, 81 frequencies',
    times_ms,
    bound: 'p95 < 300 ms',
    isKept: ({ p95_ms }: { readonly p95_ms: number }) => p95_ms < 300,
    note: `  what is left: at most ${worst.toFixed(4)} times the best known fit`,
  };
  if (peers === null) return [{ ...ours, note: `${ours.note}; ${NO_PEER}` }];
  const ratio = Math.max(
    ...peers.map(({ left_db }, i) => left_db / (STORED_FITS[i]?.best_cost_rms_db ?? 1)),
  );
  const theirs = {
    name: '    SciPy differential_evolution, once',
    times_ms: peers.map(({ ms }) => ms),
    bound: 'the peer',
    isKept: () => true,
    isPeer: true,
    note: `  what is left: at most ${ratio.toFixed(4)} times the best known fit`,
  };
  return [ours, theirs];
}
