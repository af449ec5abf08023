// Commands that the server carries out for any editor (`workspace/executeCommand`).

/** Searches places for one subwoofer of a room; then offers them, and its code actions know them. */
export const FIND_PLACEMENTS = 'groundbass.findPlacements';
export interface FindPlacementsArgument {
  readonly uri: string;
  /** The subwoofer's id. */
  readonly subwoofer: string;
}
