// The comparisons of calibration, levels at the seat and delay errors with their outside references, as the report prints them.

import { describe } from 'vitest';
import { calibrationCases } from '../accuracy/cases/calibration.ts';
import { checkComparisons } from '../support/checkComparisons.ts';

describe('calibration and levels', () => checkComparisons(calibrationCases));
