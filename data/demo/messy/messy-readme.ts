import { messKinds } from './mess.ts';

/** The README that lies beside a messy fleet's files. */
export function messyReadme({ units, seed }: { units: number; seed: number }): string {
  const codes = Object.entries(messKinds).map(([code, { must, says }]) => `| \`${code}\` | ${must} | ${says} |`);
  return `# Demo fleet as five shops would export it: invented

Every vehicle, shop, date and number here is invented: the tidy demo fleet of ${units} vehicles, seed ${seed}, as five
shops, an office and outside work would export it, messes included. Nothing was measured anywhere. Licence: that
of the project (MIT).

- \`fleet_list.xlsx\`, \`meter_readings.parquet\`, \`check_sheets.zip\`: the office.
- \`north_wo_history.csv\` (Ambleford), \`werkstatt_*.csv\` (Brackwell), \`trailer_yard.xlsx\` (Coldmere), \`dh_*.txt\`
  (Dunhollow), \`eastfen_*.jsonl\`, \`vendor_invoices.txt\` (outside work).
- \`record-set.json\`: the window. \`maps.json\`: the column maps that somebody who knows the shops would confirm; without
  it every file asks its questions.
- \`truth-rows.csv\`: a line for every mess made: file, sheet, row (as the file counts them), and what must become of
  the row. A row that is not listed must be kept as it is. The truth is what was made, not what a reader found.

| code | the row must be | what was done |
| --- | --- | --- |
${codes.join('\n')}
`;
}
