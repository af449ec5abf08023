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

/** Fits the equalisers of one device to the predicted response, or to a session's takes; then offers to write the bands, and its code actions know them. */
export const FIT_EQUALISER = 'groundbass.fitEqualiser';
export interface FitEqualiserArgument {
  readonly uri: string;
  /** The id of a device, loudspeaker or subwoofer with an equaliser. */
  readonly device: string;
  /** The session whose takes of single loudspeakers stand in for the prediction. */
  readonly session?: string;
  /** With a session: fitted to these seats alone, and only checked at the others that were measured. */
  readonly seats?: readonly string[];
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

/** Fits a room's absorption and sides to a session's takes; then offers to write the edit. */
export const FIT_ROOM = 'groundbass.fitRoom';
export interface FitRoomArgument {
  readonly uri: string;
  readonly session: string;
  readonly quiet?: boolean;
}
