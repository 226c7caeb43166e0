import fc from "fast-check";

/** Every run of the suite tries the same inputs, so that it proves the same each time; others: `SIEVEWRIGHT_SEED=$RANDOM npx vitest run`. */
export const SEED = Number(process.env.SIEVEWRIGHT_SEED ?? 20261124);

fc.configureGlobal({ ...fc.readConfigureGlobal(), seed: SEED });
