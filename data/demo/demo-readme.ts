import { DEFAULT_SEED, DEFAULT_UNITS } from './demo-units.ts';
import { BAD_LOT, BAD_SPELL, CHANGE, OBSERVED_FROM, OBSERVED_TO, PLACEBO, RECORDS_FROM } from './story.ts';

const PICKED = `The seed was picked, not drawn: with 40 of the seeds 1 to 50 Coldmere has the highest raw failure rate
while Eastfen is worst like for like; this one shows it clearly, and has a wheel lost through its fasteners.`;

/** The README that lies beside a demo fleet's files. */
export function demoReadme({ units, seed }: { units: number; seed: number }): string {
  return `# Demo fleet: invented

Every vehicle, shop, date and number in this folder is invented, made by the generator in \`data/demo\`
(${units} vehicles, seed ${seed}). Nothing was measured anywhere; no real fleet, company or person stands behind
it, and nothing here may be quoted as a fact about wheel ends. Licence: that of the project (MIT).

- \`units.csv\`, \`readings.csv\`, \`services-*.csv\` (one file per shop), \`inspections.csv\`, \`failures-*.csv\`
  (one per home shop): the records, canonical headers, dates ISO, blank = not known.
- \`record-set.json\`: failures and inspections would have been recorded from ${OBSERVED_FROM} to ${OBSERVED_TO};
  services are on file from ${RECORDS_FROM}.
- \`truth.json\`: everything planted. \`truth-lives.csv\`: what really happened to each seal; ages are miles since
  installation (since the unit came in, where the installation is unknown). Never read by the program itself.

## The story

Five shops keep ${units} tractors, trucks and trailers; outside work is filed under Outside. Coldmere keeps most
trailers and most of the quarry work, Eastfen tractors: Coldmere's raw failure rate is the highest, like for like
Eastfen's is. Seals that were cocked, hubs hung on the seal, bearings packed with grease in an oil bath, spacers
missing and nuts backed off on spacer hubs fail early; high end play, dirt and undressed spindles wear seals out
sooner. A missing mark and sealant on the seal do nothing, whatever the raw numbers say; neither does the technician.
Leaks of semi-fluid and packed hubs are found late. Lot ${BAD_LOT.lot} is bad.

- ${CHANGE.shop}, ${CHANGE.date}: ${CHANGE.what}. Deviations get rarer; nothing else changes.
- ${PLACEBO.shop}, ${PLACEBO.date}: ${PLACEBO.what}.
- ${BAD_SPELL.shop}, ${BAD_SPELL.from} to ${BAD_SPELL.to}: ${BAD_SPELL.what} (${BAD_SPELL.visitDate}).
${units === DEFAULT_UNITS && seed === DEFAULT_SEED ? `\n${PICKED}\n` : ''}`;
}
