// Faults of known size: what the likeliest cause says of them, the same rows as in the accuracy report.
import { faultCases } from '../accuracy/cases/faults.ts';
import { checkComparisons } from '../support/checkComparisons.ts';

checkComparisons(faultCases);
