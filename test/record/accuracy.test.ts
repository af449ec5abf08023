// Fingerprints and drift against published vectors and other programs: the same rows as in the accuracy report.
import { recordCases } from '../accuracy/cases/record.ts';
import { checkComparisons } from '../support/checkComparisons.ts';

checkComparisons(recordCases);
