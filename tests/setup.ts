import fc from 'fast-check';

/**
 * Property tests draw the same examples at every run, so that none fails by chance where others wait for it. A failing one is
 * printed with its seed and path. `FC_SEED=random npm run unit` draws others, `FC_SEED=123` those of that seed.
 */
const FIXED_SEED = 20_260_302;
const asked = process.env.FC_SEED;

fc.configureGlobal({
  ...fc.readConfigureGlobal(),
  ...(asked === 'random' ? {} : { seed: asked === undefined ? FIXED_SEED : Number(asked) }),
});
