import type { QuestionId } from '../../shared/finding.ts';

/** What a table on screen holds of a question that has more numbers than a reader takes in; files have all. */
const screenColumns: Partial<Record<QuestionId, { readonly counts: readonly string[]; readonly estimates: RegExp }>> = {
  causes: {
    counts: ['failuresWithout'],
    estimates:
      /^(hazardRatio|crudeHazardRatio|earlyHazardRatio|laterHazardRatio|sameVehicleHazardRatio|excessFailuresPerThousand)$/,
  },
  'after-change': {
    counts: ['livesBefore', 'failuresBefore', 'livesAfter', 'failuresAfter'],
    estimates: /^(hazardRatio.*|prevalence(Before|After))$/,
  },
  savings: {
    counts: ['failuresWithout'],
    estimates: /^(prevalence|fallsTo|hazardRatio|failuresFewer.*|moneySaved.*)$/,
  },
  renewal: {
    counts: [],
    estimates:
      /^(renewalMiles|savingPerMillionMiles|savingShare|costAtRenewal|costRunToFailure|costAtProcedureInterval|failedByRenewal|earlyFailuresPerThousand)$/,
  },
  ahead: {
    counts: [],
    estimates: /^(expectedFailures|expectedSoakedLinings|expectedCost|observedToExpected)$/,
  },
  shops: {
    counts: ['miles'],
    estimates:
      /^(expectedFailures|observedToExpected|shrunkenRatio|crudeFailuresPer.*|comebackWithin90Days|observedToExpectedWithDeviations|excessWithDeviations)$/,
  },
};

export const isOnScreen = (question: QuestionId, kind: 'counts' | 'estimates', name: string): boolean => {
  const columns = screenColumns[question];
  if (columns === undefined) return true;
  return kind === 'counts' ? columns.counts.includes(name) : columns.estimates.test(name);
};
