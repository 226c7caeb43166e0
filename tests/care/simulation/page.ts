import { blindingTable, effectiveTable, healthyTable, mishapTable, noisyTable, type Size } from "./tables.ts";

const FULL: Size = { looks: 60, healthyRuns: 20, runs: 50 };
const SMALL: Size = { looks: 3, healthyRuns: 1, runs: 3 };

const HEAD = `# What the care of sieves sees, and what it does not

Made by \`npm run docs:care\` from \`tests/care/simulation\`; every test run repeats the small tables at the end and fails
if they differ. All figures are simulated with fixed seeds.

The simulation knows nothing of the program: grains of a material fall through a stack of cloths whose apertures scatter,
each grain passing an aperture with the chance that it meets it; lots wander and resemble the lot before; splitting deals
out grains; a balance reads to 0.01 g. The materials come about as such materials do (two floods of sand, sand over
two decks, rock broken blow by blow), and none follows a curve that the program draws. Rules and limits of the program
were chosen while looking at such tables, so that on other materials they will do a little worse.
`;

const EFFECTIVE = `
## Effective apertures from routine tests

One stack, 40 tests, one look at all sieves. *Sieves known by* **nominal apertures**: the sieves scatter within Y
(standard deviation Y/4), and nothing else is known; **certificates**: their mean apertures are known to 0.3 %; **tests
from before**: 40 tests on the same stack when it was right, so that only the change is told. *Found*: the planted sieve is
called suspect. *Another blamed*: any other sieve is, as a share of all looks; with nothing planted this is the false
alarm. *Bias*: mean of estimate less truth, in % of the aperture. The last column is the share of the ranges that hold the
truth; they are meant to hold for all sieves of a stack together in 95 % of looks, if the neighbours are right, which by
nominal apertures they never quite are.

`;

const EFFECTIVE_TOLD = `
What it cannot see:

- **Sieves at the ends** of the curve (passing under 1 or over 99 %, or the first and last that tell): there is no
  neighbour on one side. Rows *at the end* plant the error in the coarsest sieve of 3 to 97 % passing, which often is such an
  end; it is then not found, and a neighbour may be blamed.
- **A blend of two materials**: the curve has a shelf, no sieve near it is judged, and that is said.
- **Sieves alone, without tests from before.** What a wrong sieve does to the curve, a bend of the material can do too. An
  error of 3 % mostly hides in the range, and a sieve that is too small is often not the one that is blamed: its neighbours
  look too wide instead (river sand, -6 %). The advice therefore always names both readings, and a stack that was inspected
  should be given tests from then: with them, 3 % is found nearly always and nobody else blamed.
- **All sieves off alike**, or off as a smooth function of size: that is the same as another material.
- **An error of 3 % at 1 mm is within Y** and no fault of a sieve; it is told as a change, if there are tests from before.
`;

const TARE = `
## Empty masses

Seven empty masses (six sieves and the pan) weighed at each test; repeatability 8 mg, read to 0.01 g; grains lodge and are
brushed out again; the air moves all readings by some mg; one weighing in 500 is a slip of the hand. The level is learnt from the
first 12 weighings, nothing below 0.05 g is told, nor below four times the scatter of the sieve itself.

### Nothing wrong

`;

const NOISY = `
What is told must be clear of the sieve's own scatter, four times of it, as well as of five readabilities: a draughty bench
makes the watch slower, not louder.

`;

const BLINDING = `
### A sieve that slowly blinds, from the 31st test on

`;

const MISHAPS = `
### What is said 20 tests after something happened

`;

const TARE_TOLD = `
What it cannot see: changes below five readabilities or within four times the sieve's own scatter; grains in the mesh from before the level was learnt, until a cleaning
is noted; with fewer than four sieves weighed together, a balance gone wrong from sieves that changed.
`;

function tablesOf(size: Size): string {
  return [healthyTable(size), blindingTable(size), mishapTable(size)].join("\n");
}

export const SMALL_HEADING = "## The same in small, as every test run repeats it";

/** The small tables, as every test run makes them. */
export const smallTables = (): string =>
  `\n${SMALL_HEADING}\n\n${effectiveTable(SMALL, [0, 0.06], false)}\n${tablesOf(SMALL)}`;

/** The whole page `docs/care-simulations.md`. */
export const carePage = (): string =>
  HEAD +
  EFFECTIVE +
  effectiveTable(FULL, [0, 0.03, 0.06, -0.03, -0.06], true) +
  EFFECTIVE_TOLD +
  TARE +
  healthyTable(FULL) +
  NOISY +
  noisyTable() +
  BLINDING +
  blindingTable(FULL) +
  MISHAPS +
  mishapTable(FULL) +
  TARE_TOLD +
  smallTables();
