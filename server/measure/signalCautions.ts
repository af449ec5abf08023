// What must be said beside every test signal: hearing and loudspeakers can be hurt by it.

/** @source all but the figures: common practice, no source; +10 dB: ITU-R BS.775, Annex 7 */
export const SIGNAL_CAUTIONS: readonly string[] = [
  'Have people out of the room, or their hearing protected, before it plays.',
  'Turn the monitor control down first; start at least 20 dB below the reference level and come up slowly.',
  'An LFE route plays 10 dB louder than a main channel: take 10 dB more off before a signal goes there.',
  'A loudspeaker bears far less of a steady signal than of music: keep within what its maker allows.',
];

/** Louder than this only when asked for by name. */
export const QUIET_LIMIT_DBFS = -12;
/** What is made without a word about level. */
export const QUIET_DBFS = -30;
