// Every computation of the pure acoustics held against numbers from outside the project; each case names its source.
import { describe } from 'vitest';
import { absorptionCases } from '../accuracy/cases/absorption.ts';
import { airCases } from '../accuracy/cases/air.ts';
import { bandCases } from '../accuracy/cases/bands.ts';
import { boxModeCases } from '../accuracy/cases/boxModes.ts';
import { crossoverCases } from '../accuracy/cases/crossover.ts';
import { decayCases } from '../accuracy/cases/decay.ts';
import { filterCases } from '../accuracy/cases/filters.ts';
import { levelCases } from '../accuracy/cases/levels.ts';
import { spaceCases } from '../accuracy/cases/space.ts';
import { checkComparisons } from '../support/checkComparisons.ts';

describe('air', () => checkComparisons(airCases));
describe('modes of a box', () => checkComparisons(boxModeCases));
describe('decay', () => checkComparisons(decayCases));
describe('bands and weightings', () => checkComparisons(bandCases));
describe('filters', () => checkComparisons(filterCases));
describe('sums of mains and sub', () => checkComparisons(crossoverCases));
describe('space', () => checkComparisons(spaceCases));
describe('levels', () => checkComparisons(levelCases));
describe('absorption', () => checkComparisons(absorptionCases));
