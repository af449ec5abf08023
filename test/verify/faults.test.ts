// Faults of known size: what the likeliest cause says of them, the same rows as in the accuracy report.
import { vi } from 'vitest';
import { faultCases } from '../accuracy/cases/faults.ts';
import { checkComparisons } from '../support/checkComparisons.ts';

// Fields in several variants take seconds on a busy machine.
vi.setConfig({ testTimeout: 120_000 });

checkComparisons(faultCases);
