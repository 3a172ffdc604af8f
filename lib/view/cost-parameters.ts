/** The costs of a view by their names in a link. */
export const costParameters = [
  ['planned-cost', 'plannedCost'],
  ['failure-cost', 'failureCost'],
  ['downtime-cost', 'downtimeCost'],
  ['lining-cost', 'liningCost'],
  ['road-call-cost', 'roadCallCost'],
] as const;
