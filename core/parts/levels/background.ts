// The room's noise as one A-weighted level: what its electronics are held against.

import type { Setup } from '../../setup.ts';

export interface Background {
  readonly level_dba: number;
  /** Recorded in dBA or in bands, from the recorded rating, or from the most that is asked for where neither is known. */
  readonly from: 'level' | 'nr' | 'nc' | 'asked';
}

/** @source ITU-R BS.1116-3, EBU Tech 3276: never above NR 15 (from memory) */
const ASKED_NR = 15;
/** A-weighted level above the rating, for noise as rooms have it. Common practice, no source. */
const ABOVE_NR_DB = 5;
const ABOVE_NC_DB = 7;

export function backgroundOf({ background = null }: Pick<Setup, 'background'>): Background {
  if (background !== null && background.level_dba !== null)
    return { level_dba: background.level_dba, from: 'level' };
  const nr = background?.nr ?? null;
  if (nr !== null) return { level_dba: nr + ABOVE_NR_DB, from: 'nr' };
  const nc = background?.nc ?? null;
  return nc === null
    ? { level_dba: ASKED_NR + ABOVE_NR_DB, from: 'asked' }
    : { level_dba: nc + ABOVE_NC_DB, from: 'nc' };
}
