import { estimateHead, estimateOrder, estimateSays } from '../../../lib/charts/index.ts';
import type { Finding, Group } from '../../../shared/finding.ts';
import type { UnitSystem } from '../../../shared/units.ts';
import { percentSign } from '../../../shared/percent-sign.ts';

interface Props {
  readonly finding: Finding;
  readonly group: Group;
  readonly units: UnitSystem;
}

/** Every number of one line with its interval and how it was come by. */
export function EstimateList({ finding, group, units }: Props) {
  const names = estimateOrder(Object.keys(group.estimates));
  return (
    <div className="wide" role="region" aria-label="Every number of it, scrolls sideways" tabIndex={0}>
      <table className="estimate-list">
        <caption>Every number of it, and how it was come by</caption>
        <thead>
          <tr>
            {['what', 'value', 'method and limits'].map((head) => (
              <th key={head} scope="col" className="text-cell">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {names.map((name) => {
            const estimate = group.estimates[name];
            if (estimate === undefined) return null;
            const wider = estimate.vehicleLower === undefined ? '' : ', the wider of model and vehicle';
            return (
              <tr key={name}>
                <th scope="row" className="text-cell">
                  {estimateHead(name, finding, units)}
                </th>
                <td className="text-cell">{estimateSays(estimate, units)}</td>
                <td className="text-cell method">
                  {estimate.method}; {Number((estimate.level * 100).toPrecision(4))}
                  {percentSign} limits{wider}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
