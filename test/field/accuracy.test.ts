// Fields and modes held against independent solutions, each with its source: the same rows as in the accuracy report.
import { describe } from 'vitest';
import { elementModeCases } from '../accuracy/cases/elementModes.ts';
import { fieldCases } from '../accuracy/cases/field.ts';
import { gearResponseCases } from '../accuracy/cases/gearResponse.ts';
import { modeSumCases } from '../accuracy/cases/modeSum.ts';
import { checkComparisons } from '../support/checkComparisons.ts';

describe('fields', () => checkComparisons(fieldCases));
describe('modes by finite elements', () => checkComparisons(elementModeCases));
describe('response files of gear', () => checkComparisons(gearResponseCases));
describe('modes in a textbook sum', () => checkComparisons(modeSumCases));
