import { firmnessRule } from '../../../shared/firmness-rule.ts';

const { firmFailures, fairFailures, thinFailures, firmWidth, firmPValue, noDifference } = firmnessRule;
const [least, most] = noDifference;

const lines = [
  [
    'Firm',
    `at least ${firmFailures} failures in each group, no doubt that stands, and either p under ${firmPValue} (allowing for how many were compared) or the whole interval of the ratio between ${least} and ${most}: “no difference worth the name” can be firm too`,
    `at least ${firmFailures} failures, no doubt that stands, and the upper limit at most ${firmWidth} times the lower`,
  ],
  ['Fair', `at least ${fairFailures} failures in each group`, `at least ${fairFailures} failures`],
  ['Thin', `${thinFailures} to ${fairFailures - 1}`, `${thinFailures} to ${fairFailures - 1}`],
  [
    'Too few',
    `under ${thinFailures}: counts and exact bounds, no ratio`,
    `under ${thinFailures}: counts and exact bounds`,
  ],
] as const;

/** The rule by which an answer is called firm, fair, thin or too few: a rule, not a mood. */
export function FirmnessRuleView() {
  return (
    <>
      <div className="wide" role="region" aria-label="The rule of firmness, scrolls sideways" tabIndex={0}>
        <table className="firmness-rule">
          <thead>
            <tr>
              <th scope="col">Word</th>
              <th scope="col">Of a comparison</th>
              <th scope="col">Of one group</th>
            </tr>
          </thead>
          <tbody>
            {lines.map(([word, compared, alone]) => (
              <tr key={word}>
                <th scope="row">{word}</th>
                <td>{compared}</td>
                <td>{alone}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>
        The wider of the limits by the model and the limits by vehicle decides. Too few never hides a safety-critical
        deviation: its cases are listed one by one.
      </p>
    </>
  );
}
