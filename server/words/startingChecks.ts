// A list of listening checks to start from, in our own words: what to play, what to listen for. Common practice, no source.

export interface StartingCheck {
  readonly id: string;
  readonly play: string;
  readonly listenFor: string;
  /** As a file writes it. */
  readonly level: string | null;
}

/** Below the usual reference levels: what is wrong is heard at a moderate level too, and ears last longer. */
const MODERATE = '76 dBC';

export const STARTING_CHECKS: readonly StartingCheck[] = [
  {
    id: 'quiet_room',
    play: 'nothing, with everything switched on',
    listenFor: 'hum, hiss, fans, knocks from outside',
    level: null,
  },
  {
    id: 'each_channel',
    play: 'a voice on one channel after the other',
    listenFor: 'the right loudspeaker and no other, the same tone colour from each',
    level: MODERATE,
  },
  {
    id: 'middle',
    play: 'a voice on left and right together',
    listenFor: 'narrow and firm in the middle; vague where one polarity is turned',
    level: MODERATE,
  },
  {
    id: 'bass_line',
    play: 'own bass line that climbs note by note through the two lowest octaves',
    listenFor: 'no note louder or longer than the next',
    level: MODERATE,
  },
  {
    id: 'kick_and_bass',
    play: 'own drum and bass loop',
    listenFor: 'one attack, not two; the bass stays with the drum',
    level: MODERATE,
  },
  {
    id: 'subwoofer_place',
    play: 'music with a little bass, the subwoofer muted now and then',
    listenFor: 'only the lowest notes come and go; the subwoofer is not heard as a place',
    level: MODERATE,
  },
  {
    id: 'rattles',
    play: 'a slow sweep from 20 Hz to 200 Hz, 20 dB below the reference level',
    listenFor: 'rattles, buzzes, blowing ports; stop at once if a driver knocks',
    level: null,
  },
  {
    id: 'known_music',
    play: 'two recordings that everyone here knows',
    listenFor: 'natural voices; no colour that is in both recordings alike',
    level: MODERATE,
  },
];
