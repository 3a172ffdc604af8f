/** One rule that can be switched off, and what it came to. */
interface Rule {
  readonly name: string;
  readonly says: string;
  readonly on: boolean;
  readonly counts: readonly number[];
}

interface Props {
  readonly title: string;
  readonly caption: string;
  readonly className: string;
  /** Heads of the counts. */
  readonly heads: readonly string[];
  readonly rules: readonly Rule[];
  readonly onSwitch: (name: string, on: boolean) => void;
}

/** Rules by which records are read, each with what it came to, and whether it is at work at all. */
export const RulesTable = ({ title, caption, className, heads, rules, onSwitch }: Props) => (
  <div>
    <h3>{title}</h3>
    <table className={className}>
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col" className="text-cell">
            rule
          </th>
          {heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rules.map(({ name, says, on, counts }) => (
          <tr key={name}>
            <th scope="row" className="text-cell">
              <label>
                <input type="checkbox" checked={on} onChange={({ target }) => onSwitch(name, target.checked)} /> {says}
              </label>
            </th>
            {counts.map((count, at) => (
              <td key={heads[at]}>{count.toLocaleString('en-US')}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
