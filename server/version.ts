// The version of this server, as the root package says it: of the manifest no more than that goes into a bundle.

import { version } from '../package.json';

export const VERSION: string = version;
