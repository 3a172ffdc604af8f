'use client';

import { FindingPage } from '../finding/finding-page.tsx';

/** Does the answer depend on a choice? */
export const RulesPage = () => <FindingPage question="rules" />;
