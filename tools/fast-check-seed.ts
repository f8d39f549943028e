import fc from "fast-check";

/** The seed of every law test unless `npm run fuzz` asks for a fresh one; fast-check prints the seed of a failure. */
const FIXED_SEED = 20260301;

const fuzzing = process.env["POLLARD_FUZZ"] === "1";
fc.configureGlobal(fuzzing ? { numRuns: 2000 } : { seed: FIXED_SEED });
