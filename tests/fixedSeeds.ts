import fc from "fast-check";

/** The suite repeats: properties draw from one seed unless STILLGLOW_SEED asks for another. A failure prints its seed. */
fc.configureGlobal({ seed: Number(process.env.STILLGLOW_SEED ?? 20_270) });
