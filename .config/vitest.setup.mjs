// Properties are tried on other examples each time, so that a run now and then finds what none has found before. With
// SEED they are the same ones again: the clean run that a change must pass does not fail for a case it has not made.
import fc from 'fast-check';

const seed = Number(process.env.SEED);
if (process.env.SEED && Number.isInteger(seed)) fc.configureGlobal({ ...fc.readConfigureGlobal(), seed });
