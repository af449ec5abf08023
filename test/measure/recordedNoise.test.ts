// Recorded noise, calibrators and arrivals from text against their outside references.

import { recordedNoiseCases } from '../accuracy/cases/recordedNoise.ts';
import { checkComparisons } from '../support/checkComparisons.ts';

checkComparisons(recordedNoiseCases);
