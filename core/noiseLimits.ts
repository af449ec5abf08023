// The noise ratings that the listening-room standards ask for.

/** @source ITU-R BS.1116-3, EBU Tech 3276 (from memory): NR 10 preferred, never above NR 15 */
export const PREFERRED_NR = 10;
export const MOST_NR = 15;
