// Measuring held against scipy and against signals that were made with known answers.
import { measureCases } from '../accuracy/cases/measure.ts';
import { recordedSweepCases } from '../accuracy/cases/recordedSweeps.ts';
import { checkComparisons } from '../support/checkComparisons.ts';

checkComparisons(measureCases);
checkComparisons(recordedSweepCases);
