// Masks, targets and averages of takes against the printed figures of the standards and by hand: the same rows as in the accuracy report.
import { judgingCases } from '../accuracy/cases/judging.ts';
import { checkComparisons } from '../support/checkComparisons.ts';

checkComparisons(judgingCases);
