import type { Doubt } from '../../../shared/finding.ts';
import { attributeName } from '../words/group-words.ts';
import { listed } from '../words/share-words.ts';
import { doubt } from './doubt.ts';

/** A view may ask for adjustment; this question compares groups as they are, and says so. */
export function adjustmentMissing(adjust: readonly string[]): Doubt | null {
  if (adjust.length === 0) return null;
  const detail = `The numbers are not adjusted for ${listed(adjust.map(attributeName))}: this question compares groups as they are.`;
  return doubt('Not adjusted', 'fails', detail, 'a filter that holds the attribute fixed');
}
