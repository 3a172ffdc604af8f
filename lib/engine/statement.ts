/** A query text with its values apart: a value never becomes part of the text. */
export interface Statement {
  readonly text: string;
  readonly values: readonly (string | number | null)[];
}

/** A name from the schema, quoted; never build one from a user's text. */
export interface Identifier {
  readonly identifier: string;
}

export const identifier = (name: string): Identifier => ({ identifier: name });

type Part = string | number | null | Identifier | Statement;

const quote = (name: string) => `"${name.replaceAll('"', '""')}"`;

/**
 * SQL through a binding tag: `${value}` becomes a parameter, `${identifier(name)}` a quoted name,
 * `${statement}` is spliced with its own parameters.
 */
export function sql(texts: TemplateStringsArray, ...parts: readonly Part[]): Statement {
  let text = texts[0] ?? '';
  const values: (string | number | null)[] = [];
  parts.forEach((part, index) => {
    if (part !== null && typeof part === 'object' && 'identifier' in part) text += quote(part.identifier);
    else if (part !== null && typeof part === 'object') {
      text += part.text;
      values.push(...part.values);
    } else {
      text += '?';
      values.push(part);
    }
    text += texts[index + 1] ?? '';
  });
  return { text, values };
}

/** Statements joined by a separator text, e.g. `and` or `,`. */
export function joinSql(statements: readonly Statement[], separator: string): Statement {
  return {
    text: statements.map(({ text }) => text).join(separator),
    values: statements.flatMap(({ values }) => values),
  };
}
