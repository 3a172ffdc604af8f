import { useSyncExternalStore } from 'react';
import { broughtBriefs, type BroughtState } from './brought-briefs.ts';

export const useBroughtBriefs = (): BroughtState =>
  useSyncExternalStore(broughtBriefs.subscribe, broughtBriefs.now, broughtBriefs.atFirst);
