// Commands that the server carries out for any editor (`workspace/executeCommand`).

/** Searches places for one subwoofer of a room; then offers them, and its code actions know them. */
export const FIND_PLACEMENTS = 'groundbass.findPlacements';
export interface FindPlacementsArgument {
  readonly uri: string;
  /** The subwoofer's id. */
  readonly subwoofer: string;
  /** Whoever asked shows what was found: nothing is offered in a message. */
  readonly quiet?: boolean;
}

/** Fits the equalisers of one device to the predicted response; then offers to write the bands, and its code actions know them. */
export const FIT_EQUALISER = 'groundbass.fitEqualiser';
export interface FitEqualiserArgument {
  readonly uri: string;
  /** The id of a device, loudspeaker or subwoofer with an equaliser. */
  readonly device: string;
  readonly quiet?: boolean;
}

/** Searches places for the main pair, kept symmetric, or for the reference seat along the middle of the room. */
export const MOVE_OTHERS = 'groundbass.moveOthers';
export type Moveable = 'mains' | 'seat';
export interface MoveOthersArgument {
  readonly uri: string;
  readonly move: Moveable;
  readonly quiet?: boolean;
}
