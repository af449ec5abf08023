// The version of this server, as the root package says it.

import manifest from '../package.json' with { type: 'json' };

export const VERSION: string = manifest.version;
