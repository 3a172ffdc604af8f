'use client';

import { FindingPage } from '../finding/finding-page.tsx';

/** How much does the measured value matter? */
export const DosePage = () => <FindingPage question="dose" />;
