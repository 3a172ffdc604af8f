'use client';

import { FindingPage } from '../finding/finding-page.tsx';

/** Are leaks found late? */
export const DetectionPage = () => <FindingPage question="detection" />;
