'use client';

import { FindingPage } from '../finding/finding-page.tsx';

/** Do repaired wheel ends fail again? */
export const RepeatsPage = () => <FindingPage question="repeats" />;
