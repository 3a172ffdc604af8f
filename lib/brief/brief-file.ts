import { briefSchema, briefVersion, type Brief } from '../../shared/brief.ts';

export const briefText = (brief: Brief): string => `${JSON.stringify(brief, null, 1)}\n`;

/**
 * A brief out of JSON as it was saved.
 * @throws Error that says what is wrong and where
 */
export function briefIn(text: string): Brief {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    throw new Error(`is no JSON (${error instanceof Error ? error.message : String(error)})`);
  }
  const version = typeof value === 'object' && value !== null && 'brief' in value ? value.brief : undefined;
  if (typeof version === 'number' && version !== briefVersion)
    throw new Error(`is a brief of version ${version}; version ${briefVersion} is read here`);
  const parsed = briefSchema.safeParse(value);
  if (parsed.success) return parsed.data;
  const problems = parsed.error.issues
    .slice(0, 5)
    .map(({ path, message }) => `${path.join('.') || 'as a whole'}: ${message}`)
    .join('; ');
  throw new Error(`is no brief (${problems})`);
}
