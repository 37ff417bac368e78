// The same commit must pass or fail alike on every machine and every day: all properties draw from one seed. Another
// one hunts for what this one misses: PROPERTY_SEED=7 npm exec vitest run tests/ingest.
import { configureGlobal } from "fast-check";

const { PROPERTY_SEED = "20261128" } = process.env;
configureGlobal({ seed: Number(PROPERTY_SEED) });
