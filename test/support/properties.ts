// Set-up of every unit test: property tests draw the same cases in every run, unless GROUNDBASS_SEED names another start or `random`.
import fc from 'fast-check';

const told = process.env.GROUNDBASS_SEED ?? '20261125';
fc.configureGlobal(told === 'random' ? {} : { seed: Number(told) });
