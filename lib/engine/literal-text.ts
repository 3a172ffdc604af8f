import type { Statement } from './statement.ts';

// Everything in which a question mark is no placeholder: texts, quoted names, comments, dollar-quoted texts.
const passedOver =
  /[eE]'(?:[^'\\]|\\[\s\S]|'')*'|'[^']*(?:''[^']*)*'|"[^"]*(?:""[^"]*)*"|--[^\n]*|\/\*[\s\S]*?\*\/|\$(\w*)\$[\s\S]*?\$\1\$|\?/g;

/**
 * A statement as one text, its values written as typed literals. DuckDB-WASM runs prepared
 * statements without a way to cancel them and sends their values through JSON, which turns NaN
 * into NULL; a pending query takes text only. The casts give a value the type that a bound
 * parameter has in the native engine.
 */
export function literalText({ text, values }: Statement): string {
  let next = 0;
  const written = text.replace(passedOver, (found) => {
    if (found !== '?') return found;
    if (next >= values.length) throw new Error(`more placeholders than values (${values.length}) in: ${text}`);
    return literal(values[next++] ?? null);
  });
  if (next !== values.length) throw new Error(`${values.length} values for ${next} placeholders in: ${text}`);
  return written;
}

function literal(value: string | number | null): string {
  if (value === null) return 'NULL';
  if (typeof value === 'number') return `CAST('${String(value)}' AS DOUBLE)`;
  // A NUL would end the text early where it crosses into WASM.
  const pieces = value.split('\0').map(quotedText);
  return `CAST(${pieces.join(' || chr(0) || ')} AS VARCHAR)`;
}

/** A text as SQL writes it. DuckDB knows no backslash escapes in a plain quoted text. */
export const quotedText = (text: string): string => `'${text.replaceAll("'", "''")}'`;
